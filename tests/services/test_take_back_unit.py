import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Review, Unit
from teardowns.services.take_back_unit import take_back_unit
from teardowns.workflow import EVENTS, NotNow
from tests.handing_in import STATES, correction_of, hand_in, with_plate

pytestmark = pytest.mark.django_db


def test_what_was_handed_in_is_open_again_with_all_that_is_in_it(unit, alice):
    hand_in(with_plate(unit, alice), alice)
    take_back_unit(author=alice, unit_pk=unit.pk)
    unit.refresh_from_db()
    assert unit.status == "draft" and unit.printedtexts.get().text.startswith("INPUT")
    assert list(Entry.objects.order_by("pk").values_list("action", flat=True)) == [
        "work_submit", "work_take_back"]


@pytest.mark.parametrize("state", STATES)
def test_a_state_allows_it_as_the_table_says(unit, alice, state):
    Unit.objects.update(status=state)
    if (state, "take_back") in EVENTS:
        take_back_unit(author=alice, unit_pk=unit.pk)
        return
    with pytest.raises((NotNow, Http404)):
        take_back_unit(author=alice, unit_pk=unit.pk)
    assert Unit.objects.get(pk=unit.pk).status == state


def test_reviews_that_were_begun_end(unit, alice, rita):
    Unit.objects.update(status="in_review")
    review = Review.objects.create(unit=unit, reviewer=rita, no_conflict=True)
    take_back_unit(author=alice, unit_pk=unit.pk)
    review.refresh_from_db()
    assert review.closed_at is not None and review.ending == "moved_on"


def test_nobody_takes_back_what_is_somebody_elses(unit, bob, mona):
    Unit.objects.update(status="submitted")
    for person in (bob, mona):
        with pytest.raises(Http404):
            take_back_unit(author=person, unit_pk=unit.pk)


def test_a_correction_is_taken_back_and_the_unit_stays_public(unit, bob):
    correction = correction_of(unit, bob, status="submitted")
    take_back_unit(author=bob, unit_pk=unit.pk)
    correction.refresh_from_db()
    unit.refresh_from_db()
    assert (correction.status, unit.status) == ("draft", "published")
