"""What a correction has changed, against the version that it starts from."""
import pytest

from teardowns.exchange.changes import ADDED, CHANGED, REMOVED, changes
from teardowns.models import Unit
from teardowns.services.assess_units import assess_units
from teardowns.services.difference_of_work import (
    difference_of_correction,
    difference_of_versions,
    difference_of_work,
)
from teardowns.services.drop_correction import drop_correction
from tests.corrections import corrected, public_unit, write
from tests.published import confirm_all, published

WRITTEN = {("claims", "class-2", REMOVED), ("measurements", "held", CHANGED),
           ("measurements", "volts", ADDED)}


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def told(difference):
    return {(row.list, row.key, row.kind) for row in changes(difference.was, difference.now).rows}


def test_without_a_correction_there_is_none(unit):
    assert difference_of_work(unit) is None


def test_an_untouched_one_changes_nothing(unit, bob):
    corrected(unit, bob)
    found = difference_of_work(unit)
    assert told(found) == set() and not found.moved


def test_what_was_written_is_told_with_what_it_does_to_the_verdicts(unit, bob):
    corrected(unit, bob)
    write(unit, value=3.0)
    assess_units([unit])
    found = difference_of_work(unit)
    assert told(found) == WRITTEN
    assert found.moved.capability


def test_what_was_dropped_is_told_by_what_was_kept_of_it(unit, bob):
    corrected(unit, bob)
    write(unit)
    dropped = drop_correction(author=bob, unit_pk=unit.pk)
    found = difference_of_correction(dropped, Unit.objects.get(pk=unit.pk))
    assert told(found) == WRITTEN and found.moved is None


def test_two_versions_are_told_with_what_was_said_of_each_on_its_day(unit, bob):
    corrected(unit, bob)
    write(unit, value=3.0)
    confirm_all(unit)
    newer = published(Unit.objects.get(pk=unit.pk))
    found = difference_of_versions(unit.publications.get(number=1), newer)
    assert told(found) == WRITTEN and found.moved.capability
