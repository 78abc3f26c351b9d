"""Who may say what and where, what waits for a moderator, and how long words can be changed."""
from datetime import timedelta

import pytest
from django.http import Http404
from django.utils import timezone

from core.audit.models import Entry
from core.stale import Stale
from teardowns.models import BoardFamily, Comment, CommentState, Notice, Part, Status, Unit
from teardowns.services.watch import watch
from teardowns.services.write_comment import (
    LOOKED_AT_FIRST,
    edit_comment,
    retract_comment,
    write_comment,
)
from teardowns.workflow import NotNow
from tests import cast
from tests.published import published
from tests.reviews import handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def public(unit, mona):
    published(unit, mona)
    return unit


def known(person, unit):
    """The person is no new account: as many comments as it takes were looked at."""
    for number in range(LOOKED_AT_FIRST):
        Comment.objects.create(unit=unit, author=person, text=f"earlier {number}",
                               ref="measurement/elsewhere", written_at=timezone.now())


def told():
    return set(Notice.objects.filter(kind="comment").values_list("person__username", flat=True))


def test_the_first_comments_of_an_account_wait_and_nobody_is_told(bob, public):
    comment = write_comment(author=bob, thing=public, text="What core is it?")
    assert comment.state == CommentState.HELD and told() == set()
    assert Entry.objects.get().action == "comment_written"


def test_they_go_on_waiting_until_a_moderator_looked_however_many_there_are(bob, public):
    states = {write_comment(author=bob, thing=public, text=f"Number {n}").state
              for n in range(LOOKED_AT_FIRST + 3)}
    assert states == {CommentState.HELD}


def test_after_five_that_were_looked_at_an_account_is_known(bob, public):
    known(bob, public)
    assert write_comment(author=bob, thing=public, text="Hello").state == CommentState.SHOWN


def test_a_crowd_of_new_accounts_puts_nothing_before_anybody(public, rolf):
    watch(person=rolf, thing=public)
    for number in range(40):
        crowd = cast.person(f"crowd{number}")
        for text in (f"Buy at shop {number}", "Buy at shop <https://shop.example>"):
            write_comment(author=crowd, thing=public, text=text)
    assert not Comment.objects.readable().exists() and told() == set()


@pytest.mark.parametrize("name", ["rita", "mona"])
def test_a_reviewer_and_a_moderator_are_known(public, request, name):
    known = request.getfixturevalue(name)
    assert write_comment(author=known, thing=public, text="Hello").state == CommentState.SHOWN


def test_what_a_known_account_says_in_two_places_waits(bob, public, alice):
    known(bob, public)
    part = Part.objects.create(marking="QX123", curator=alice, accepted_at=timezone.now())
    write_comment(author=bob, thing=public, text="Look at my shop")
    assert write_comment(author=bob, thing=part, text="Look at my shop").state == "held"


def test_the_same_words_in_the_same_place_are_refused(bob, public):
    write_comment(author=bob, thing=public, text="Hello")
    with pytest.raises(NotNow, match="already"):
        write_comment(author=bob, thing=public, text="Hello")
    assert write_comment(author=bob, thing=public, text="Hello", ref="measurement/mass")


def test_who_watches_who_spoke_before_and_the_contributor_are_told_and_the_writer_is_not(
        alice, bob, rita, rolf, public):
    watch(person=rolf, thing=public)
    write_comment(author=rita, thing=public, text="One")
    Notice.objects.all().delete()
    known(bob, public)
    write_comment(author=bob, thing=public, text="Two")
    assert told() == {"alice", "rita", "rolf"}
    notice = Notice.objects.filter(person=alice).get()
    assert notice.words == "by bob" and "#comment-" in notice.address


def test_who_spoke_of_another_row_is_not_told(rita, rolf, public):
    write_comment(author=rita, thing=public, text="One", ref="measurement/mass")
    write_comment(author=rolf, thing=public, text="Two", ref="measurement/length")
    assert "rita" not in told()


def test_parts_and_families_are_talked_about_too(rita, rolf, alice):
    part = Part.objects.create(marking="QX123", curator=alice, accepted_at=timezone.now())
    family = BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)
    watch(person=rolf, thing=family)
    for thing in (part, family):
        assert write_comment(author=rita, thing=thing, text="Hello").thing == thing
    assert told() == {"rolf"} and Notice.objects.get().words == "by rita, on “Board A”"


def test_a_draft_is_not_talked_about(alice, mona, unit):
    for person in (alice, mona):
        with pytest.raises(Http404):
            write_comment(author=person, thing=unit, text="Hello")


def test_a_unit_in_review_is_talked_about_by_those_at_work_on_it_and_stays_inside(
        alice, bob, rita, rolf, mona, unit):
    take_on(rita, handed_in(unit))
    unit.refresh_from_db()
    watch(person=bob, thing=unit)
    comment = write_comment(author=rita, thing=unit, text="Where was it weighed?")
    assert comment.is_internal and comment.state == CommentState.SHOWN and told() == {"alice"}
    write_comment(author=alice, thing=unit, text="At home.")
    assert told() == {"alice", "rita"}
    write_comment(author=mona, thing=unit, text="Thank you.")
    for person in (bob, rolf):
        with pytest.raises(Http404):
            write_comment(author=person, thing=unit, text="Hello")


def test_a_hidden_unit_is_not_talked_about(alice, rita, public):
    Unit.objects.update(quarantined_at=timezone.now())
    public.refresh_from_db()
    for person in (alice, rita):
        with pytest.raises(Http404):
            write_comment(author=person, thing=public, text="Hello")


def test_a_withdrawn_unit_is_not_talked_about(bob, public):
    public.status = Status.WITHDRAWN
    with pytest.raises(Http404):
        write_comment(author=bob, thing=public, text="Hello")


@pytest.mark.parametrize("loss", [{"suspended_at": timezone.now()}, {"email_verified_at": None},
                                  {"is_active": False}, {"role": "administrator"}])
def test_nobody_out_of_good_standing_comments_nor_does_an_administrator(bob, public, loss):
    for name, value in loss.items():
        setattr(bob, name, value)
    with pytest.raises(Http404):
        write_comment(author=bob, thing=public, text="Hello")


def test_words_can_be_changed_for_a_quarter_of_an_hour(rita, public):
    comment = write_comment(author=rita, thing=public, text="One")
    edited = edit_comment(author=rita, pk=comment.pk, version=1, text="Two")
    assert edited.text == "Two" and edited.edited_at and edited.version == 2
    Comment.objects.update(written_at=timezone.now() - timedelta(minutes=16))
    with pytest.raises(NotNow, match="15 minutes"):
        edit_comment(author=rita, pk=comment.pk, version=2, text="Three")


def test_an_edit_of_what_was_edited_elsewhere_loses_neither_text(rita, public):
    comment = write_comment(author=rita, thing=public, text="One")
    edit_comment(author=rita, pk=comment.pk, version=1, text="Two")
    with pytest.raises(Stale) as stale:
        edit_comment(author=rita, pk=comment.pk, version=1, text="Three")
    assert stale.value.current == {"text": "Two"} and stale.value.version == 2
    assert Comment.objects.get().text == "Two"


def test_other_words_of_a_new_account_wait_again(bob, public):
    comment = write_comment(author=bob, thing=public, text="One")
    Comment.objects.update(state=CommentState.SHOWN)
    assert edit_comment(author=bob, pk=comment.pk, version=1, text="Buy here").state == "held"


def test_the_same_words_change_nothing(rita, public):
    comment = write_comment(author=rita, thing=public, text="One")
    assert edit_comment(author=rita, pk=comment.pk, version=1, text="One").version == 1
    assert Entry.objects.count() == 1


def test_one_takes_back_ones_own_words_once_and_nobody_elses(bob, rita, public):
    comment = write_comment(author=rita, thing=public, text="One")
    for act in (retract_comment, lambda **who: edit_comment(version=1, text="x", **who)):
        with pytest.raises(Http404):
            act(author=bob, pk=comment.pk)
    assert retract_comment(author=rita, pk=comment.pk).state == CommentState.RETRACTED
    with pytest.raises(NotNow):
        retract_comment(author=rita, pk=comment.pk)
    with pytest.raises(NotNow, match="taken back"):
        edit_comment(author=rita, pk=comment.pk, version=2, text="Two")


def test_what_was_said_first_is_kept_for_who_looks_into_a_report(rita, public):
    comment = write_comment(author=rita, thing=public, text="One")
    edit_comment(author=rita, pk=comment.pk, version=1, text="Two")
    assert list(comment.history.order_by("history_id").values_list("text", flat=True)) == [
        "One", "Two"]
