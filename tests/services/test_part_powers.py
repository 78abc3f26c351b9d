"""What a unit with a part claims, delivered and is worked out to deliver, by its public version."""
import pytest

from teardowns.models import Unit
from teardowns.services.import_unit import import_unit
from teardowns.services.part_powers import powers_of_units
from tests.exchange.small import small
from tests.published import confirm_all, published
from tests.services.measured_units import measured_unit

pytestmark = pytest.mark.django_db


def loaded(author, mains):
    """Held 9.5 W and lost 10.5 W at this mains."""
    rows = [{"quantity": code, "key": key, "value": watts, "mains_voltage": mains}
            for code, key, watts in (("sustained_power", "held", 9.5),
                                     ("failed_power", "lost", 10.5))]
    plate = {"kind": "input", "key": "in", "text": "100-240 V", "voltage_low": 100.0,
             "voltage_high": 240.0}
    unit = import_unit(small(measurements=rows, claims=[plate]), author, "in_review")
    confirm_all(unit)
    published(unit)
    return unit


def test_a_load_is_told_with_the_mains_that_it_was_tested_at(alice):
    found, = powers_of_units([loaded(alice, 115.0).pk])
    assert found.measured == pytest.approx((9.5 * 10.5) ** 0.5)
    assert found.measured_mains == 115.0


def test_mains_that_a_test_does_not_state_stay_unknown(alice):
    unit = measured_unit(alice, 50.0, 10.0)
    found, = powers_of_units([unit.pk])
    assert found.measured == pytest.approx(10.0) and found.measured_mains is None
    assert found.claimed == 12.0 and found.title == unit.title


def test_both_ends_of_the_mains_are_told_with_their_intervals(alice):
    found, = powers_of_units([loaded(alice, 115.0).pk])
    assert [end.voltage for end in found.ends] == [100.0, 240.0]
    assert all(end.low < end.median < end.high and not end.is_assumed for end in found.ends)


def test_mains_that_the_plate_does_not_state_are_marked_as_assumed(alice):
    found, = powers_of_units([measured_unit(alice, 50.0, 10.0).pk])
    assert all(end.is_assumed for end in found.ends)


def test_a_unit_of_which_nothing_is_known_has_no_ends(unit):
    published(unit)
    found, = powers_of_units([unit.pk])
    assert (found.ends, found.measured, found.claimed) == ((), None, None)


def test_what_is_not_public_is_not_told(alice):
    unit = measured_unit(alice, 50.0, 10.0)
    Unit.objects.update(status="withdrawn")
    assert powers_of_units([unit.pk]) == []


def test_many_units_cost_two_queries(alice, django_assert_num_queries):
    pks = [measured_unit(alice, grams, 10.0).pk for grams in (40.0, 50.0)]
    with django_assert_num_queries(2):
        assert len(powers_of_units(pks)) == 2
