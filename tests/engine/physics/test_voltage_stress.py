"""Sums of voltages around the loops of switch and rectifier, worked out by hand."""
import numpy as np
import pytest

from teardowns.engine.physics.output_stage import output_voltage_of_reverse
from teardowns.engine.physics.voltage_stress import (
    reflected_limited_voltage,
    switch_limited_voltage,
    switch_peak_voltage,
)


def test_the_switch_sees_bus_reflection_and_spike():
    # 264 V: √2·264 = 373.4 V, with 100 V reflected and a spike of 80 V.
    assert switch_peak_voltage(373.4, 100.0, 80.0) == pytest.approx(553.4)


def test_the_output_bound_is_the_voltage_that_brings_the_switch_to_its_limit():
    # 15 : 1, 13.0 V and 0.5 V of drop reflect 202.5 V: 375 + 202.5 + 40 = 617.5 V = 0.95 · 650 V.
    assert switch_limited_voltage(617.5, 375.0, 40.0, 75.0, 5.0, 0.5) == pytest.approx(13.0)
    assert switch_peak_voltage(375.0, (13.0 + 0.5) * 15, 40.0) == pytest.approx(0.95 * 650)


def test_a_switch_that_does_not_stand_the_bus_leaves_no_output():
    assert switch_limited_voltage(400.0, 375.0, 40.0, 75.0, 5.0, 0.5) < 0


def test_4_c_a_40_volt_schottky_at_76_volts_of_reflection_suits_5_volts():
    # Power Integrations AN-23 (7/99), step 6: 40 V part, 0.8 of it = 32 V, 375 V, 0.5 V of drop.
    assert reflected_limited_voltage(32.0, 375.0, 76.4, 0.5) == pytest.approx(5.0, abs=0.01)


def test_by_turns_and_by_reflection_it_is_the_same_bound():
    # 8 : 1 and a 60 V part: 60 − 340/8 = 17.5 V, which reflects (17.5 + 0.5)·8 = 144 V.
    by_turns = output_voltage_of_reverse(60.0, 340.0, 8.0)
    assert by_turns == pytest.approx(17.5)
    assert reflected_limited_voltage(60.0, 340.0, 144.0, 0.5) == pytest.approx(by_turns)


FORMULAS = {switch_peak_voltage: 3, switch_limited_voltage: 6, reflected_limited_voltage: 4}


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
def test_unknown_in_unknown_out(formula):
    for unknown in range(FORMULAS[formula]):
        inputs = [0.5] * FORMULAS[formula]
        inputs[unknown] = np.nan
        assert np.isnan(formula(*inputs))


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
def test_one_gives_the_bits_of_many(formula):
    many = np.random.default_rng(1).uniform(0.1, 0.9, (FORMULAS[formula], 301))
    one = formula(*many[:, [150]])
    assert one.tobytes() == formula(*many)[[150]].tobytes()
