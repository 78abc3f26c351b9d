"""Microfarads a watt of output. Power Integrations AN-23 (7/99), table 5: 2 to 3 for 100/115 V and
universal input, 1 for 230 V only; 0.7 to 1.5 in cheap universal units (from memory).
"""
import numpy as np
import pytest

from teardowns.engine.rules.power.bulk_capacitance_per_watt import bulk_capacitance_per_watt
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, value

ID = "power/bulk_capacitance_per_watt"
FOUND = ("power_factor_corrector", 1.0, 0.0)
MISSING = ("power_factor_corrector", 0.0, 0.0)
HIGH = (("rated_voltage_low", 220.0, 0.0), ("rated_voltage_high", 240.0, 0.0))


def unit(microfarads, *observations, plate=WIDE):
    return [*plate, ("bulk_capacitance", microfarads * 1e-6, 0.01e-6 * microfarads), *observations]


def per_watt(low_voltage, corrector=0.0):
    """Microfarads a watt."""
    return 10 / value(bulk_capacitance_per_watt, 10e-6, low_voltage, corrector)


@pytest.mark.parametrize("least, most", [(2.0, 3.0), (0.7, 1.5)])
def test_a_universal_input_lies_within_the_spread_of_both_habits(least, most):
    # Two standard uncertainties of 0.45 reach a factor of 2.46 either way.
    assert per_watt(100.0) / 2.46 < least < most < per_watt(100.0) * 2.46


def test_230_volts_only_needs_the_share_of_an_23():
    # 1 µF beside 2 to 3 µF, in the middle 2.5
    assert per_watt(100.0) / per_watt(220.0) == pytest.approx(2.5)
    assert per_watt(220.0) < 1 < 2 * per_watt(220.0)


@pytest.mark.parametrize("low", [100.0, 220.0])
def test_behind_a_corrector_half_to_one_microfarad_a_watt_is_common(low):
    # from memory
    assert 0.5 < per_watt(low, corrector=1.0) < 1.0


@pytest.mark.parametrize("inputs", [(NAN, 100.0, 0.0), (1e-5, NAN, 0.0), (1e-5, NAN, 1.0),
                                    (1e-5, 100.0, NAN), (0.0, 100.0, 0.0)])
def test_unknown_in_unknown_out(inputs):
    assert np.isnan(value(bulk_capacitance_per_watt, *inputs))


@pytest.mark.parametrize("plate", [WIDE, HIGH], ids=["universal", "230 V"])
def test_where_the_capacitor_sets_a_limit_the_habit_is_silent(plate):
    found = line(bulk_capacitance_per_watt, unit(10, plate=plate), [watts(10.0)])
    assert not found["used"] and "limit" in found["why_not"]
    assert line(bulk_capacitance_per_watt, unit(10, MISSING), [watts(90.0)])["used"] is False


def test_behind_a_corrector_which_lifts_the_limit_it_speaks():
    # 68 µF · 2.5 / 1.45 µF/W = 117 W at both mains ends
    found = ends(bulk_capacitance_per_watt, unit(68, FOUND), [watts(90.0)])
    assert found == pytest.approx([117.2] * 2, rel=1e-3)


def test_a_small_capacitor_behind_a_corrector_whispers_against_a_large_claim():
    small, fitting = (weight(judge(unit(size, FOUND), [watts(90.0)]), ID) for size in (10, 68))
    assert -14.8 < small < -3 and 0 < fitting < 14.8           # 30 : 1 at most


def test_above_65_watts_it_waits_for_the_corrector_to_be_looked_for():
    assert line(bulk_capacitance_per_watt, unit(68), [watts(90.0)]) is None


def test_an_unread_plate_leaves_it_silent():
    assert line(bulk_capacitance_per_watt, unit(10, FOUND, plate=()), [watts(10.0)]) is None
