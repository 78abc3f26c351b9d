"""Who sees, changes, reviews and decides about a unit and its corrections."""
import pytest
from django.utils import timezone

from core.accounts.models import Role
from teardowns import access
from teardowns.models import Correction, Review, Status, Unit
from tests.access.stages import at, held_by, who
from tests.handing_in import correction_of

pytestmark = pytest.mark.django_db
EVERYBODY = {"alice", "bob", "rita", "rolf", "mona", "nobody"}
WORKING = {"alice", "rita", "mona"}


@pytest.fixture
def people(people, rolf, unit):
    """Rita reviews the unit; Rolf is a reviewer of others."""
    held_by(people["rita"], unit)
    return people | {"rolf": rolf}


@pytest.fixture
def signed_in(people):
    """What is asked only where somebody signed in."""
    del people["nobody"]
    return people


def sees(people, unit):
    return who(people, lambda one: access.unit_to_see(one, unit.pk))


def quarantined(unit):
    unit.quarantined_at = timezone.now()
    unit.save()


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice"}),
    (Status.SUBMITTED, WORKING),
    (Status.IN_REVIEW, WORKING),
    (Status.SENT_BACK, {"alice", "mona"}),
    (Status.DECLINED, {"alice", "mona"}),
    (Status.PUBLISHED, EVERYBODY),
    (Status.WITHDRAWN, {"alice", "mona"}),
    (Status.DISCARDED, set())])
def test_a_unit_is_seen_by_those_at_work_on_it_until_it_is_public(people, unit, status, seen):
    at(unit, status)
    assert sees(people, unit) == seen


def test_what_is_quarantined_is_seen_by_its_contributor_and_moderators(people, unit):
    at(unit, Status.PUBLISHED)
    quarantined(unit)
    assert sees(people, unit) == {"alice", "mona"}


def test_a_published_status_without_a_version_shows_nothing_to_everybody(people, unit):
    at(unit, Status.SUBMITTED)
    Unit.objects.update(status=Status.PUBLISHED)
    assert sees(people, unit) == WORKING
    assert who(people, lambda _: access.public_unit(unit.pk)) == set()


def test_what_is_public_is_so_for_everybody(people, unit):
    at(unit, Status.PUBLISHED)
    assert who(people, lambda _: access.public_unit(unit.pk)) == EVERYBODY


@pytest.mark.parametrize("change", [
    lambda rita, alice: Review.objects.update(closed_at=timezone.now()),
    lambda rita, alice: Review.objects.update(unit=Unit.objects.create(contributor=alice)),
    lambda rita, alice: Review.objects.update(reviewer=alice),
    lambda rita, alice: setattr(rita, "role", Role.CONTRIBUTOR)],
    ids=["closed", "of another unit", "of somebody else", "role lost"])
def test_a_review_lets_in_who_holds_it_for_that_unit_alone(signed_in, unit, alice, rita, change):
    at(unit, Status.IN_REVIEW)
    for lets_in in (lambda one: access.unit_to_see(one, unit.pk),
                    lambda one: access.unit_to_review(one, unit.pk),
                    lambda one: access.holds_review(one, unit),
                    lambda one: access.sees_working_copy(one, unit)):
        assert "rita" in who(signed_in, lets_in)
    change(rita, alice)
    for lets_in in (lambda one: access.unit_to_see(one, unit.pk),
                    lambda one: access.unit_to_review(one, unit.pk),
                    lambda one: access.holds_review(one, unit),
                    lambda one: access.sees_working_copy(one, unit)):
        assert "rita" not in who(signed_in, lets_in)


@pytest.mark.parametrize("status, changed_by", [
    (Status.DRAFT, {"alice"}), (Status.SENT_BACK, {"alice"}), (Status.IN_REVIEW, set()),
    (Status.PUBLISHED, set())])
def test_a_bench_sheet_is_open_to_its_contributor(people, unit, status, changed_by):
    at(unit, status)
    assert who(people, lambda one: access.unit_to_change(one, unit.pk)) == changed_by


def test_what_is_quarantined_is_changed_by_nobody(people, unit):
    quarantined(unit)
    assert who(people, lambda one: access.may_change(one, unit)) == set()


def test_a_correction_is_written_by_its_author(people, unit, bob):
    correction_of(unit, bob)
    assert who(people, lambda one: access.unit_to_change(one, unit.pk)) == {"bob"}
    assert who(people, lambda one: access.unit_of_own(one, unit.pk)) == {"bob"}


@pytest.mark.parametrize("status, own", [
    (Status.IN_REVIEW, {"alice"}), (Status.PUBLISHED, {"alice"}), (Status.DISCARDED, set())])
def test_a_unit_is_its_contributors_at_any_stage_but_discarded(people, unit, status, own):
    at(unit, status)
    assert who(people, lambda one: access.unit_of_own(one, unit.pk)) == own


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice"}),
    (Status.SUBMITTED, WORKING),
    (Status.SENT_BACK, {"alice", "mona"}),
    (Status.PUBLISHED, {"alice", "mona"})])
def test_rows_as_they_are_worked_on_are_seen_by_those_at_work(people, unit, status, seen):
    at(unit, status)
    assert who(people, lambda one: access.sees_working_copy(one, unit)) == seen
    assert who(people, lambda one: access.unit_working_copy(one, unit.pk)) == seen


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice", "bob"}), (Status.SUBMITTED, {"alice", "bob", "rita", "mona"})])
def test_rows_of_a_correction_are_seen_by_its_author_too(people, unit, bob, status, seen):
    correction_of(unit, bob, status)
    assert who(people, lambda one: access.unit_working_copy(one, unit.pk)) == seen


@pytest.mark.parametrize("status, reviewed_by", [
    (Status.SUBMITTED, {"rita"}), (Status.IN_REVIEW, {"rita"}), (Status.SENT_BACK, set()),
    (Status.PUBLISHED, set())])
def test_a_unit_is_reviewed_by_who_took_it_on_while_it_waits(signed_in, unit, status, reviewed_by):
    at(unit, status)
    assert who(signed_in, lambda one: access.unit_to_review(one, unit.pk)) == reviewed_by


@pytest.mark.parametrize("change", [
    quarantined, lambda unit: Unit.objects.update(contributor=Review.objects.get().reviewer),
    lambda unit: Correction.objects.update(author=Review.objects.get().reviewer)],
    ids=["quarantined", "own unit", "own correction"])
def test_nobody_reviews_their_own_work_nor_what_is_quarantined(signed_in, unit, bob, change):
    correction_of(unit, bob, Status.IN_REVIEW)
    assert who(signed_in, lambda one: access.unit_to_review(one, unit.pk)) == {"rita"}
    change(unit)
    assert who(signed_in, lambda one: access.unit_to_review(one, unit.pk)) == set()


def test_a_reading_is_taken_again_by_a_reviewer_with_no_part_in_the_work(people, unit, rolf):
    assert who(people, lambda one: access.may_read_again(one, unit)) == {"rita", "rolf"}
    correction_of(unit, rolf)
    assert who(people, lambda one: access.may_read_again(one, unit)) == {"rita"}


@pytest.mark.parametrize("status, decided_by", [
    (Status.DRAFT, set()), (Status.SUBMITTED, {"mona"}), (Status.PUBLISHED, {"mona"}),
    (Status.DISCARDED, set())])
def test_what_was_handed_in_is_decided_by_moderators(people, unit, status, decided_by):
    at(unit, status)
    assert who(people, lambda one: access.unit_to_moderate(one, unit.pk)) == decided_by


def test_no_moderator_decides_about_their_own_work(people, unit, mona, milo):
    people["milo"] = milo
    correction_of(unit, mona)
    assert who(people, lambda one: access.unit_to_moderate(one, unit.pk)) == {"milo"}
    Unit.objects.update(contributor=milo)
    assert who(people, lambda one: access.unit_to_moderate(one, unit.pk)) == set()


@pytest.mark.parametrize("status, withdrawn_by", [
    (Status.DRAFT, set()), (Status.SUBMITTED, set()), (Status.PUBLISHED, {"alice", "mona"}),
    (Status.WITHDRAWN, {"alice", "mona"})])
def test_a_public_unit_is_withdrawn_by_its_contributor_or_a_moderator(people, unit, status,
                                                                      withdrawn_by):
    at(unit, status)
    assert who(people, lambda one: access.unit_to_withdraw(one, unit.pk)) == withdrawn_by


def sees_correction(people, correction, unit):
    return who(people, lambda one: access.correction_to_see(one, unit.pk, correction.pk))


@pytest.fixture
def readers(people, ada):
    """With Ada, who has no part in anything."""
    return people | {"ada": ada}


@pytest.mark.parametrize("status, seen", [
    (Status.DRAFT, {"alice", "bob"}),
    (Status.SUBMITTED, {"alice", "bob", "rita", "mona"}),
    (Status.IN_REVIEW, {"alice", "bob", "rita", "mona"}),
    (Status.SENT_BACK, {"alice", "bob", "mona"}),
    (Status.PUBLISHED, EVERYBODY | {"ada"}),
    (Status.DISCARDED, {"alice", "bob"})])
def test_a_correction_is_seen_by_those_at_work_on_it(readers, unit, bob, status, seen):
    assert sees_correction(readers, correction_of(unit, bob, status), unit) == seen


def test_a_published_correction_of_what_is_withdrawn_is_not_for_everybody(readers, unit, bob):
    correction = correction_of(unit, bob, Status.PUBLISHED)
    Unit.objects.update(status=Status.WITHDRAWN)
    assert sees_correction(readers, correction, unit) == {"alice", "bob", "mona"}


def test_a_correction_has_no_place_at_another_unit(people, unit, bob, alice):
    other = Unit.objects.create(contributor=alice, title="Veltrice VQ-20")
    assert sees_correction(people, correction_of(unit, bob), other) == set()
