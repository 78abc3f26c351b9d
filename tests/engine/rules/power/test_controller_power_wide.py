"""Power Integrations AN-23 (7/99), table 7: 2.5, 5 and 7.5 W for 85 to 265 V."""
import numpy as np
import pytest

from teardowns.engine.rules.power.controller_power_wide import controller_power_wide
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value


def unit(power):
    return [*WIDE, ("controller_power_wide", power, 0.02 * power)]


@pytest.mark.parametrize("printed", [2.5, 5.0, 7.5])
def test_the_table_is_the_limit_at_100_volts(printed):
    assert controller_power_wide(np.array([100.0]), np.array([printed])).tolist() == [printed]


@pytest.mark.parametrize("mains, printed", [(230.0, 5.0), (100.0, NAN)])
def test_it_says_nothing_at_230_volts_or_without_a_table(mains, printed):
    assert np.isnan(controller_power_wide(np.array([mains]), np.array([printed])))[0]


def test_a_claim_of_three_times_the_table_is_refuted_at_the_low_end():
    done = judge([*WIDE, ("controller_power_wide", 5.0, 0.1)], [watts(15.0)])
    assert done.judged.plausibility[0] < 0.01
    assert done.judged.plausibility_high[0] == pytest.approx(0.5)
    assert weight(done, "power/controller_power_wide") < -20


def test_a_table_above_the_claim_supports_it_mildly():
    # A quarter of margin is what makers leave; the floor of (1 − w)/4 ends the support at 16 dB.
    done = judge([*WIDE, ("controller_power_wide", 5.0, 0.1)], [watts(4.0)])
    assert 0 < weight(done, "power/controller_power_wide") < 16


@pytest.mark.parametrize("mains, speaks", [(85, True), (179.9, True), (180, False), (230, False)])
def test_the_wide_range_ends_at_180_volts(mains, speaks):
    assert np.isfinite(value(controller_power_wide, mains, 5.0)) == speaks


def test_a_unit_for_100_to_240_volts_has_the_line_at_the_low_end_only():
    assert ends(controller_power_wide, unit(5.0), [watts(6.0)]) == [5.0, None]


def test_a_unit_for_220_to_240_volts_does_not_have_it():
    high = [("rated_voltage_low", 220.0, 0.0), ("controller_power_wide", 5.0, 0.1)]
    found = line(controller_power_wide, high, [watts(6.0)])
    assert not found["used"] and "below 180 V" in found["why_not"]


def test_a_table_of_zero_watts_is_no_line():
    assert ends(controller_power_wide, unit(0.0), [watts(6.0)]) == [None, None]


def test_its_uncertainty_holds_what_enclosure_and_ambient_move():
    # √(0.15² + 0.02²) = 0.1513
    found = line(controller_power_wide, unit(5.0), [watts(6.0)])["ends"]["low"]["u_ln"]
    assert found == pytest.approx(0.1513, abs=5e-4)


def test_a_part_for_far_more_says_nothing():
    far = judge(unit(1000.0), [watts(6.0)])
    assert abs(weight(far, "power/controller_power_wide")) < 3


def test_the_lowest_of_several_tables_counts():
    both = [*unit(5.0), ("controller_power_wide", 7.5, 0.15)]
    assert ends(controller_power_wide, both, [watts(6.0)])[0] == 5.0


def test_a_part_that_was_not_named_is_asked_for_once():
    found = questions(controller_power_wide, WIDE, [watts(6.0)])
    assert len(found) == 1 and "primary controller" in found[0]
