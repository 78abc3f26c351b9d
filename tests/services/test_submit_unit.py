import pytest
from django.http import Http404
from django.utils import timezone

from core.audit.models import Entry
from teardowns import licence
from teardowns.models import (
    ContributionLicence,
    PhotoPrivacyCheck,
    Submission,
    Unit,
    UnsavedSection,
)
from teardowns.services.submit_unit import Incomplete, Terms
from teardowns.workflow import EVENTS, NotNow
from tests.handing_in import STATES, TERMS, correction_of, hand_in, remark_on, with_plate

pytestmark = pytest.mark.django_db


@pytest.fixture
def sheet(unit, alice):
    return with_plate(unit, alice)


def missing_of(unit, author, **more):
    """The sentences of what stands in the way; nothing was written."""
    with pytest.raises(Incomplete) as found:
        hand_in(unit, author, **more)
    assert not Submission.objects.exists()
    assert not Entry.objects.filter(action="work_submit").exists()
    return [each.sentence for each in found.value.missing]


def test_it_is_handed_in_with_its_words_and_its_time(sheet, alice):
    submission = hand_in(sheet, alice, message="Look at the slot.")
    sheet.refresh_from_db()
    assert sheet.status == "submitted" and sheet.submitted_at is not None
    assert (submission.message, submission.author) == ("Look at the slot.", alice)


def test_the_terms_are_kept_with_the_hash_of_their_text(sheet, alice):
    terms = Terms(licence.IN_FORCE.number, True, "permitted", "Photo 2 by a friend, who agreed")
    kept = hand_in(sheet, alice, terms=terms).licence
    assert (kept.measurements, kept.works) == ("CC0-1.0", "CC-BY-4.0")
    assert kept.text_sha256 == licence.IN_FORCE.sha256 and kept.unit == sheet
    assert kept.third_party_note == "Photo 2 by a friend, who agreed"


def test_the_log_has_one_entry_of_it(sheet, alice):
    submission = hand_in(sheet, alice)
    entry = Entry.objects.get()
    assert (entry.action, entry.detail["submission"]) == ("work_submit", submission.pk)


def test_what_was_typed_into_the_form_is_cleared_and_other_typed_words_stay(sheet, alice):
    for section in ("submit", "ports"):
        UnsavedSection.objects.create(unit=sheet, section=section, author=alice)
    hand_in(sheet, alice)
    assert UnsavedSection.objects.get().section == "ports"


def test_without_anything_printed_it_says_what_to_write(unit, alice):
    assert any("at least one claim" in each for each in missing_of(unit, alice))


def test_without_a_photo_a_reason_is_asked_for(sheet, alice):
    assert any("one photo" in each for each in missing_of(sheet, alice, why_no_photo=" "))


def test_each_photo_is_to_be_ticked_and_a_reason_for_none_is_not_kept(sheet, alice, photo):
    assert "one is not ticked" in missing_of(sheet, alice)[0]
    PhotoPrivacyCheck.objects.create(photo=photo, photo_version=photo.version, author=alice)
    assert hand_in(sheet, alice).why_no_photo == ""


@pytest.mark.parametrize("terms, words", [
    (Terms(TERMS.edition, False, "none"), "Tick this"), (Terms(99, True, "none"), "changed")])
def test_the_terms_have_to_be_agreed_to_as_they_are_now(sheet, alice, terms, words):
    assert words in missing_of(sheet, alice, terms=terms)[0]


def test_everything_that_is_missing_is_said_at_once(unit, alice):
    assert len(missing_of(unit, alice, why_no_photo="", terms=Terms(99, False, "none"))) == 4


def test_a_new_account_is_told_when_it_may_hand_in_the_next(sheet, alice):
    other = Unit.objects.create(contributor=alice, title="Another", status="submitted")
    Submission.objects.create(unit=other, author=alice)
    with pytest.raises(Incomplete, match="one a day"):
        hand_in(sheet, alice)


@pytest.mark.parametrize("state", STATES)
def test_a_state_allows_it_as_the_table_says(sheet, alice, state):
    sheet.status = state
    sheet.save()
    if (state, "submit") in EVENTS:
        assert hand_in(sheet, alice).pk
        return
    with pytest.raises((NotNow, Http404)):
        hand_in(sheet, alice)
    assert Unit.objects.get(pk=sheet.pk).status == state and not Submission.objects.exists()


def test_a_second_one_right_after_is_told_where_it_stands(sheet, alice):
    hand_in(sheet, alice)
    with pytest.raises(NotNow, match="waiting for a review"):
        hand_in(sheet, alice)
    assert Submission.objects.count() == ContributionLicence.objects.count() == 1


def test_nobody_hands_in_what_is_somebody_elses(sheet, bob, mona):
    for person in (bob, mona):
        with pytest.raises(Http404):
            hand_in(sheet, person)


def test_what_a_moderator_looks_into_stays_as_it_is(sheet, alice):
    Unit.objects.update(quarantined_at=timezone.now())
    with pytest.raises(NotNow, match="looking into"):
        hand_in(sheet, alice)


def test_each_remark_needs_its_answer_which_is_kept_with_its_time(sheet, alice, mona):
    Unit.objects.update(status="sent_back")
    remark = remark_on(sheet, mona)
    assert "1 have no answer" in missing_of(sheet, alice, answers={remark.pk: "  "})[0]
    hand_in(sheet, alice, answers={remark.pk: " Read again: it is 2 A. "})
    remark.refresh_from_db()
    assert remark.answer == "Read again: it is 2 A." and remark.answered_at is not None


def test_a_correction_is_handed_in_by_its_author_alone(sheet, alice, bob):
    correction = correction_of(sheet, bob)
    with pytest.raises(Http404):
        hand_in(sheet, alice)
    assert hand_in(sheet, bob).correction == correction
    correction.refresh_from_db()
    sheet.refresh_from_db()
    assert (correction.status, sheet.status) == ("submitted", "published")
