"""The listing says what is public, after every event that changes it."""
import json
from contextlib import suppress
from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from teardowns.exchange.answered import answered_share
from teardowns.imaging.limits import LIST_WIDTH
from teardowns.models import HiddenNow, ListedUnit, ListingClock, Photo, SearchText
from teardowns.presenting.asked_rows import Sheet, asked_rows, shown_photos
from teardowns.presenting.completeness import completeness
from teardowns.services.appeal import decide_appeal, open_appeal
from teardowns.services.decide_approval import approve
from teardowns.services.describe_photo import describe_photo, take_down_photo
from teardowns.services.edit_family import decide_member, propose_member, remove_member
from teardowns.services.export_unit import unit_document
from teardowns.services.hide_now import hide_now, lapse_hidden, show_again
from teardowns.services.import_unit import import_unit
from teardowns.services.list_units import list_slice, list_units, listing_differences
from teardowns.services.load_demo import FIXTURES
from teardowns.services.merge_units import ask_merge
from teardowns.services.quarantine_unit import quarantine_unit, release_unit
from teardowns.services.reassess_publications import reassess_slice
from teardowns.services.reinstate_unit import reinstate_unit
from teardowns.services.withdraw_unit import withdraw_unit
from tests.corrections import corrected, public_unit, write
from tests.library import family as opened
from tests.published import confirm_all, published
from tests.services.test_reassess_publications import another_rulebook

pytestmark = pytest.mark.django_db
WHY = {"code": "not_this_unit", "facts": "Photo 2 shows another board."}
AGAIN = {"code": "looked_at_again", "facts": "It is this board after all."}


@pytest.fixture
def public(unit, photo):
    """Alice's unit with a photo, as everybody sees it."""
    confirm_all(unit)
    published(unit)
    unit.refresh_from_db()
    return unit


def listed():
    """Numbers of what is listed; the rows are what they should be."""
    assert list(listing_differences()) == []
    return list(ListedUnit.objects.listed().values_list("pk", flat=True))


def row(unit):
    return ListedUnit.objects.get(pk=unit.pk)


def test_a_draft_is_not_listed_and_does_not_touch_the_clock(unit):
    list_units([unit.pk, None])
    assert listed() == [] and not ListingClock.objects.exists()


def test_a_published_unit_is_listed_as_its_version_says(public):
    version = public.publication
    assert listed() == [public.pk]
    found = row(public)
    assert (found.publication_id, found.title) == (version.pk, version.title)
    assert (found.verdict, found.claimed_power) == (version.standing.verdict,
                                                    version.standing.claimed_power)
    assert found.picture == Photo.objects.get().key


def test_a_next_version_takes_the_place_of_the_first(alice, mona):
    unit = public_unit(alice)
    corrected(unit, alice)
    write(unit)
    assert listed() == [unit.pk]                  # what is being written on is not public
    assert row(unit).publication.number == 1
    confirm_all(unit)
    published(unit, mona)
    assert listed() == [unit.pk] and row(unit).publication.number == 2


def test_withdrawn_it_is_listed_no_more_and_its_row_stays_to_tell(public, mona, milo):
    withdraw_unit(by=mona, unit_pk=public.pk, **WHY)
    assert listed() == [] and row(public).changed == ListingClock.objects.get().number
    assert not SearchText.objects.exists()
    reinstate_unit(moderator=milo, unit_pk=public.pk, **AGAIN)
    assert listed() == [public.pk] and SearchText.objects.exists()


def test_withdrawn_while_a_correction_is_open(alice, mona):
    unit = public_unit(alice)
    corrected(unit, alice)
    withdraw_unit(by=mona, unit_pk=unit.pk, **WHY)
    assert listed() == []


def test_in_quarantine_it_is_not_listed_until_it_is_released(public, mona, milo):
    quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    assert listed() == []
    release_unit(moderator=milo, unit_pk=public.pk, **AGAIN)
    assert listed() == [public.pk]


def test_an_appeal_that_lifts_a_quarantine_lists_it_again(public, alice, mona, milo):
    statement = quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
    appeal = open_appeal(author=alice, uid=statement.uid, text="It is the same board.")
    decide_appeal(moderator=milo, appeal_pk=appeal.pk, reverse=True, facts="So it is.")
    assert listed() == [public.pk]


def hidden(by, about):
    return hide_now(by=by, about=about, reason="a parcel label")


def test_hidden_at_once_it_is_out_of_the_list_until_that_lapses(public, rita):
    hidden(rita, f"unit/{public.pk}")
    assert listed() == []
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))
    assert listed() == []                         # until the worker came round, as on its page
    assert lapse_hidden() == 1
    assert listed() == [public.pk]


def test_a_moderator_shows_it_again(public, rita, mona):
    found = hidden(rita, f"unit/{public.pk}")
    show_again(moderator=mona, hidden_pk=found.pk, **AGAIN)
    assert listed() == [public.pk]


def test_a_photo_out_of_sight_stands_for_no_unit(public, rita):
    hidden(rita, f"photo/{Photo.objects.get().pk}")
    assert listed() == [public.pk] and row(public).picture == ""
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))
    lapse_hidden()
    assert listed() and row(public).picture == Photo.objects.get().key


def test_a_photo_too_small_for_a_list_stands_for_no_unit(public):
    Photo.objects.get().derivatives.filter(width=LIST_WIDTH).delete()
    list_units([public.pk])
    assert listed() and row(public).picture == ""


def test_a_photo_taken_down_stands_for_no_unit(public, alice):
    corrected(public, alice)
    photo = Photo.objects.get()
    take_down_photo(author=alice, photo=photo, reason="a face in it")
    assert listed() and row(public).picture == ""


def test_a_stage_that_is_being_corrected_does_not_move_the_picture(public, alice):
    corrected(public, alice)
    photo = Photo.objects.get()
    describe_photo(author=alice, photo=photo, version=photo.version, stage="plate", caption="",
                   alt="")
    assert listed() and row(public).picture == photo.key


def test_merged_into_another_only_that_one_is_listed(public, bob, mona, milo):
    younger = public_unit(bob)
    asked = ask_merge(moderator=mona, unit_pk=younger.pk, into_pk=public.pk,
                      reason="The same serial number.")
    approve(by=milo, approval_pk=asked.pk)
    assert listed() == [public.pk]


def test_families_are_those_that_a_moderator_accepted(public, bob, mona):
    family = opened(mona)
    member = propose_member(proposer=bob, family_pk=family.pk, unit_pk=public.pk, why="One print.")
    assert listed() and row(public).families == []
    decide_member(moderator=mona, member_pk=member.pk, version=member.version, accepted=True,
                  reason="Compared.")
    assert listed() and row(public).families == [family.slug]
    member.refresh_from_db()
    remove_member(moderator=mona, member_pk=member.pk, version=member.version, reason="Two boards.")
    assert listed() and row(public).families == []


def test_other_rules_are_listed_with_the_versions_that_they_move(alice, monkeypatch):
    unit = public_unit(alice)
    before = row(unit)
    another_rulebook(monkeypatch)
    ListedUnit.objects.update(verdict="")         # as the rules before would have had it
    reassess_slice()
    assert listed() == [unit.pk] and row(unit).changed > before.changed


def test_what_is_in_line_already_is_left_alone(public):
    before = ListingClock.objects.get().number
    assert list_units([public.pk]) == []
    assert ListingClock.objects.get().number == before


def test_a_change_that_is_taken_back_leaves_the_listing_as_it_was(public, mona):
    before = row(public).changed
    with suppress(InterruptedError), transaction.atomic():
        quarantine_unit(moderator=mona, unit_pk=public.pk, **WHY)
        raise InterruptedError
    assert listed() == [public.pk] and row(public).changed == before


def test_a_listing_that_was_never_made_is_made_in_slices(alice, unit):
    made = [public_unit(alice), unit]
    published(unit)
    ListedUnit.objects.all().delete()
    assert {pk for pk, _ in listing_differences()} == {one.pk for one in made}
    after = 0
    while after is not None:
        after = list_slice(after, size=1)
    assert sorted(listed()) == sorted(one.pk for one in made)


def test_each_difference_names_its_columns(public):
    ListedUnit.objects.update(risk=4, mass=1.0)
    assert list(listing_differences()) == [(public.pk, ["risk", "mass"])]


@pytest.mark.parametrize("number", ["01", "27", "30", "36"])
def test_completeness_is_what_the_bench_sheet_says_without_the_asks_of_care(alice, number):
    path, = FIXTURES.glob(f"{number}-*.json")
    unit = import_unit(json.loads(path.read_text("utf-8")), alice)
    sheet = completeness(Sheet(unit, asked_rows(unit), shown_photos(unit)))
    asked = [group for group in sheet.groups if group.title != "How well it is told"]
    assert answered_share(unit_document(unit)) == pytest.approx(
        sum(group.answered for group in asked) / sum(group.asked for group in asked))
