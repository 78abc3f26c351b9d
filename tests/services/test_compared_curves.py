"""Load curves for a comparison."""
import pytest

from teardowns.models import Unit
from teardowns.services.compared_curves import MOST, compared_curves
from teardowns.services.compared_units import compared_units
from teardowns.services.recording_files import drop_channels
from tests.published import published
from tests.views.log_page import held

pytestmark = pytest.mark.django_db


@pytest.fixture
def units(alice, tmp_path):
    """The first has two logs, the second none."""
    logged, bare = (Unit.objects.create(contributor=alice, title=name) for name in "AB")
    for name in ("one.csv", "two.csv"):
        held(alice, logged, tmp_path, 1.5 if name == "two.csv" else 2.0, name)
    for unit in (logged, bare):
        published(unit)
    return [logged, bare]


def found(units):
    return compared_units([(unit.pk, "") for unit in units]).units


def test_each_unit_brings_the_curves_of_its_public_logs(units):
    first, second = compared_curves(found(units))
    assert len(first) == 2 and second == []
    assert all(volts == pytest.approx(5.0, abs=0.1) for _, points in first for _, volts in points)


def test_all_units_together_have_room_for_so_many_curves(units):
    each = compared_curves(found(units)[:1] * MOST)
    assert [len(curves) for curves in each] == [1] * MOST


def test_a_log_whose_numbers_are_lost_has_no_curve(units):
    for log in units[0].recordings.all():
        drop_channels(log.channels)
    assert compared_curves(found(units)) == [[], []]


def test_a_log_that_no_version_has_is_not_read(alice, units, tmp_path):
    units[0].recordings.update(published_at=None)
    assert compared_curves(found(units)) == [[], []]
