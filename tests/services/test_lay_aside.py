"""What a correction proposed is kept, and the rows are those of the public version."""
import pytest
from django.db import transaction

from teardowns.models import Correction, Unit
from teardowns.services.decline_correction import decline_correction
from teardowns.services.export_unit import unit_document
from teardowns.services.lay_aside import lay_aside
from tests.corrections import corrected, public_unit, write


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def now(unit):
    return unit_document(Unit.objects.get(pk=unit.pk))


def test_without_one_there_is_nothing_to_do(unit):
    before = now(unit)
    with transaction.atomic():
        assert lay_aside(unit, None) is None
    assert now(unit) == before


def test_a_declined_one_gives_the_rows_back_and_stays_readable(unit, bob, mona):
    before = now(unit)
    correction = corrected(unit, bob)
    write(unit)
    proposed = now(unit)
    Correction.objects.filter(pk=correction.pk).update(status="submitted")
    decline_correction(moderator=mona, unit_pk=unit.pk, code="wrong_reading", facts="See photo 1.")
    correction.refresh_from_db()
    assert now(unit) == before
    assert correction.proposal["document"] == proposed
    assert (correction.status, correction.outcome) == ("declined", "See photo 1.")


def test_it_is_all_or_nothing(unit, bob, monkeypatch):
    correction = corrected(unit, bob)
    write(unit)
    proposed = now(unit)

    def breaks(*args, **more):
        raise OSError("no room")

    monkeypatch.setattr("teardowns.services.lay_aside.assess_units", breaks)
    with pytest.raises(OSError), transaction.atomic():
        lay_aside(unit, bob)
    correction.refresh_from_db()
    assert now(unit) == proposed and correction.proposal is None
