"""Power Integrations AN-23 (7/99), table 7: 5, 8 and 10 W at 230 V."""
import numpy as np
import pytest

from teardowns.engine.rules.power.controller_power_high import controller_power_high
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value

HIGH_ONLY = (("rated_voltage_low", 220.0, 0.0), ("rated_voltage_high", 240.0, 0.0))


def unit(power, plate=HIGH_ONLY):
    return [*plate, ("controller_power_high", power, 0.02 * power)]


def moved(power, claim):
    return weight(judge(unit(power), [watts(claim)]), "power/controller_power_high")


@pytest.mark.parametrize("printed", [5.0, 8.0, 10.0])
def test_the_table_is_the_limit_at_230_volts(printed):
    assert controller_power_high(np.array([230.0]), np.array([printed])).tolist() == [printed]


@pytest.mark.parametrize("mains, printed", [(100.0, 5.0), (230.0, NAN)])
def test_it_says_nothing_at_100_volts_or_without_a_table(mains, printed):
    assert np.isnan(controller_power_high(np.array([mains]), np.array([printed])))[0]


def test_a_claim_of_three_times_the_table_is_refuted_at_the_high_end():
    done = judge([*WIDE, ("controller_power_high", 5.0, 0.1)], [watts(15.0)])
    assert done.judged.plausibility_high[0] < 0.01
    assert done.judged.plausibility[0] == pytest.approx(0.5)


def test_it_is_the_low_end_too_of_a_unit_for_220_to_240_volts():
    done = judge([*HIGH_ONLY, ("controller_power_high", 5.0, 0.1)], [watts(15.0)])
    assert weight(done, "power/controller_power_high") < -20


@pytest.mark.parametrize("mains, speaks", [(100, False), (179.9, False), (180, True), (264, True)])
def test_the_high_range_begins_at_180_volts(mains, speaks):
    assert np.isfinite(value(controller_power_high, mains, 8.0)) == speaks


def test_a_unit_for_100_to_240_volts_has_the_line_at_the_high_end_only():
    assert ends(controller_power_high, unit(8.0, WIDE), [watts(10.0)]) == [None, 8.0]


def test_a_unit_for_220_to_240_volts_has_it_at_both():
    assert ends(controller_power_high, unit(8.0), [watts(10.0)]) == [8.0, 8.0]


def test_a_unit_for_120_volts_does_not_have_it():
    american = unit(8.0, [("rated_voltage_low", 120.0, 0.0)])
    found = line(controller_power_high, american, [watts(10.0)])
    assert not found["used"] and "180 V or more" in found["why_not"]


def test_a_table_of_zero_watts_is_no_line():
    assert ends(controller_power_high, unit(0.0), [watts(10.0)]) == [None, None]


def test_a_part_below_the_claim_speaks_against_it_and_one_above_mildly_for():
    assert moved(8.0, claim=12.0) < -10
    assert 3 < moved(10.0, claim=8.0) < 10


def test_a_part_for_far_more_says_nothing():
    assert abs(moved(1000.0, claim=6.0)) < 3


def test_the_wide_range_asks_for_both():
    assert questions(controller_power_high, HIGH_ONLY, [watts(6.0)]) == []
