import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns import access
from teardowns.models import Photo, PrintedText, Unit
from teardowns.services.discard_unit import discard_unit
from teardowns.workflow import EVENTS, NotNow
from tests.handing_in import STATES, correction_of, with_plate
from tests.published import published

pytestmark = pytest.mark.django_db


def test_it_goes_out_of_sight_and_nothing_of_it_is_lost(unit, alice, photo):
    with_plate(unit, alice)
    discard_unit(author=alice, unit_pk=unit.pk, reason="Wrong unit.")
    with pytest.raises(Http404):
        access.unit_to_see(alice, unit.pk)
    assert PrintedText.objects.filter(unit=unit).exists() and unit.history.count() == 2
    assert Photo.objects.get().derivatives.exists()
    assert Entry.objects.get(action="work_discard").reason == "Wrong unit."


@pytest.mark.parametrize("state", STATES)
def test_a_state_allows_it_as_the_table_says(unit, alice, state):
    Unit.objects.update(status=state)
    if (state, "discard") in EVENTS:
        discard_unit(author=alice, unit_pk=unit.pk)
        return
    with pytest.raises((NotNow, Http404)):
        discard_unit(author=alice, unit_pk=unit.pk)
    assert Unit.objects.get(pk=unit.pk).status == state


def test_what_was_public_once_cannot_be_discarded(unit, alice):
    published(unit)
    with pytest.raises(NotNow, match="withdrawn"):
        discard_unit(author=alice, unit_pk=unit.pk)


def test_nor_is_the_unit_of_a_correction(unit, bob):
    correction_of(unit, bob)
    with pytest.raises(NotNow):
        discard_unit(author=bob, unit_pk=unit.pk)


def test_nobody_discards_what_is_somebody_elses(unit, bob, mona):
    for person in (bob, mona):
        with pytest.raises(Http404):
            discard_unit(author=person, unit_pk=unit.pk)
