"""Which units measured their capability, and what keeps the others out of a reference set."""
from math import nan, sqrt

import pytest

from teardowns.exchange.measured_capability import NotMeasured, measured_capability
from tests.exchange.small import small


def load(quantity, value, **fields):
    return {"quantity": quantity, "value": value, "output_voltage": 5.0,
            "mains_voltage": 230.0} | fields


def held(value, **fields):
    return load("sustained_power", value, **fields)


def lost(value, **fields):
    return load("failed_power", value, **fields)


def power(*rows, claimed=nan, **lists):
    return measured_capability(small(measurements=list(rows), **lists), claimed).power


def reason(*rows, claimed=nan, **lists):
    with pytest.raises(NotMeasured) as refused:
        power(*rows, claimed=claimed, **lists)
    return str(refused.value)


def test_a_load_held_and_one_lost_close_above_measure_the_capability():
    assert power(held(10.0), lost(12.0)) == pytest.approx(sqrt(120))


def test_it_keeps_the_conditions_of_the_test():
    found = measured_capability(small(measurements=[held(10.0), lost(12.0)]), nan)
    assert (found.mains_voltage, found.output_voltage) == (230.0, 5.0)


def test_the_highest_load_held_and_the_lowest_lost_count():
    assert power(held(8.0), held(10.0), lost(12.0), lost(14.0)) == pytest.approx(sqrt(120))


def test_the_over_current_point_is_a_load_that_is_too_much():
    # 2.4 A · 5 V = 12 W
    assert power(held(10.0), load("overcurrent_point", 2.4)) == pytest.approx(sqrt(120))


@pytest.mark.parametrize("claimed, measured", [(10.0, True), (10.5, True), (11.0, False),
                                               (nan, False)])
def test_farther_apart_the_claim_must_have_been_held(claimed, measured):
    # 1.5 apart; 10 W is 0.95 of 10.5 W and 0.91 of 11 W.
    if measured:
        assert power(held(10.0), lost(15.0), claimed=claimed) == pytest.approx(sqrt(150))
    else:
        assert "too far apart" in reason(held(10.0), lost(15.0), claimed=claimed)


def test_beyond_1_6_of_a_claim_that_was_held_too_much_is_too_far():
    assert "too far apart" in reason(held(10.0), lost(16.1), claimed=10.0)


def test_a_claim_that_was_held_without_more_is_a_floor_not_a_capability():
    assert "too much is not known" in reason(held(10.0), claimed=10.0)


def test_without_a_load_there_is_nothing():
    assert "no load" in reason(lost(12.0), claimed=10.0)
    assert "no load" in reason(claimed=10.0)


@pytest.mark.parametrize("how", ["claimed_by_seller", "estimated", "read_off", "data_sheet"])
def test_a_power_that_is_only_stated_is_no_measurement(how):
    assert "no load" in reason(held(10.0, how=how), lost(12.0))
    assert "not known" in reason(held(10.0), lost(12.0, how=how))


def test_a_dispute_about_a_load_keeps_the_unit_out():
    assert "disputed" in reason(held(10.0), lost(12.0), lost(11.0, review_state="disputed"))


@pytest.mark.parametrize("lists", [
    {"components": [{"role": "ballast"}]},
    {"extra": {"key": "iron", "quantity": "mass_ballast", "value": 0.02}},
])
def test_a_part_without_function_keeps_the_unit_out(lists):
    extra = [lists.pop("extra")] if "extra" in lists else []
    assert "without function" in reason(held(10.0), lost(12.0), *extra, **lists)


@pytest.mark.parametrize("row", [
    {"key": "iron", "quantity": "mass_ballast", "value": 0.0},
    {"key": "iron", "quantity": "mass_ballast", "state": "not_found"}])
def test_ballast_looked_for_and_not_found_does_not(row):
    assert power(held(10.0), lost(12.0), row)


@pytest.mark.parametrize("conditions", [{"output_voltage": 9.0}, {"mains_voltage": 115.0}])
def test_loads_in_other_conditions_are_not_compared(conditions):
    assert "not known" in reason(held(10.0), lost(12.0, **conditions))


def test_conditions_that_are_not_stated_do_not_differ():
    bare = {"quantity": "failed_power", "value": 12.0}
    assert power(held(10.0), bare) == pytest.approx(sqrt(120))


def test_a_load_held_above_one_that_was_lost_is_a_contradiction():
    assert "held above one" in reason(held(10.0), lost(9.0))


PORTS = [{"key": "c1", "label": "C1"}, {"key": "c2", "label": "C2"}]


def test_of_several_ports_one_alone_does_not_show_the_unit():
    single = {"port": "c1"}
    assert "single ports" in reason(held(10.0, **single), lost(12.0, **single), ports=PORTS)
    assert power(held(10.0, **single), lost(12.0, **single), ports=PORTS[:1])
    assert power(held(10.0), lost(12.0), ports=PORTS)
