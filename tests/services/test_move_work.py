"""What is worked on moves from state to state: once, logged, and only inside a transaction."""
import pytest
from django.db import transaction
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Correction, Unit
from teardowns.services.move_work import locked_unit, move
from teardowns.workflow import NotNow
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def correction(unit, bob):
    return Correction.objects.create(unit=unit, author=bob, base=published(unit), reason="A typo")


def test_a_unit_moves_and_the_log_says_who_moved_it(unit, alice):
    with transaction.atomic():
        assert move(locked_unit(unit.pk), "submit", alice).status == "submitted"
    unit.refresh_from_db()
    entry = Entry.objects.get(action="work_submit")
    assert unit.status == "submitted" and unit.submitted_at and entry.actor == alice
    assert entry.detail["before"] == "draft" and entry.detail["after"] == "submitted"


def test_the_history_of_the_unit_has_the_mover(unit, alice):
    with transaction.atomic():
        move(locked_unit(unit.pk), "submit", alice)
    assert unit.history.first().history_user == alice


def test_what_the_state_does_not_allow_changes_nothing(unit, alice):
    with pytest.raises(NotNow, match="still a draft"), transaction.atomic():
        move(locked_unit(unit.pk), "publish", alice)
    unit.refresh_from_db()
    assert unit.status == "draft" and not Entry.objects.filter(action="work_publish").exists()


def test_an_open_correction_moves_and_the_public_unit_stands(unit, correction, bob):
    with transaction.atomic():
        work = move(locked_unit(unit.pk), "submit", bob)
    unit.refresh_from_db()
    correction.refresh_from_db()
    assert (work.status, work.author_id, unit.status) == ("submitted", bob.pk, "published")
    assert correction.submitted_at is not None and correction.is_open


def test_a_correction_that_ends_is_closed_with_its_outcome(unit, correction, bob, mona):
    with transaction.atomic():
        move(locked_unit(unit.pk), "submit", bob)
        work = move(locked_unit(unit.pk), "decline", mona, "Not what the photo shows")
    correction.refresh_from_db()
    assert not correction.is_open and correction.outcome == "Not what the photo shows"
    assert work.status == "published" and work.correction is None


def test_withdrawing_speaks_of_the_unit_even_beside_an_open_correction(unit, correction, mona):
    with transaction.atomic():
        move(locked_unit(unit.pk), "withdraw", mona, "Mixed up with another unit")
    assert Unit.objects.get(pk=unit.pk).status == "withdrawn"


def test_an_unknown_unit_is_not_found(db):
    with pytest.raises(Http404), transaction.atomic():
        locked_unit(404)
