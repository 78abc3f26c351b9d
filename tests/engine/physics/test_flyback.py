"""The flyback at its operating point.

Textbook: Erickson & Maksimovic, Fundamentals of Power Electronics, 2nd ed., ch. 14, transformer of
a flyback converter (from memory): 200 V, N_s/N_p = 0.15, D = 0.4, 150 kHz, 5 A, ripple 20 % of the
magnetising current either way.
"""
import numpy as np
import pytest

from teardowns.engine.physics import flyback
from teardowns.engine.physics.flyback import (
    boundary_power,
    drawn_power,
    duty_cycle,
    lowest_bus_voltage,
    peak_current,
    reflected_voltage,
    supplied_voltage,
    window_limited_voltage,
)
from teardowns.engine.physics.winding_currents import winding_average, winding_rms

RATIO, BUS, DUTY, HERTZ, LOAD = 0.15, 200.0, 0.4, 150e3, 5.0
MAGNETISING = RATIO * LOAD / (1 - DUTY)            # 1.25 A
PEAK, RIPPLE = 1.2 * MAGNETISING, 0.4 / 1.2        # 1.5 A; (1.2 − 0.8)/1.2 = 1/3
INDUCTANCE = BUS * DUTY / (0.4 * MAGNETISING * HERTZ)          # 1.0667 mH


def test_2_a_20_volts_put_the_duty_cycle_at_0_4():
    assert duty_cycle(reflected_voltage(20.0, 0.0, 1.0, RATIO), BUS, 0.0) == pytest.approx(DUTY)


def test_2_b_the_magnetising_current_is_1_25_amperes():
    # Mean bus current over D: the mean of the trapezium while the switch conducts.
    assert winding_average(PEAK, DUTY, RIPPLE) / DUTY == pytest.approx(1.25, rel=5e-3)


def test_2_c_1_07_millihenry_rise_by_the_ripple():
    assert peak_current(BUS, DUTY, 1.07e-3, HERTZ) == pytest.approx(0.4 * 1.25, rel=5e-3)


def test_2_d_to_f_the_rms_currents():
    # Secondary: from the primary's peak over the ratio, while the switch is open. Total, referred
    # to the primary: 0.796 + 0.15 · 6.50 = 1.77 A.
    primary = winding_rms(PEAK, DUTY, RIPPLE)
    secondary = winding_rms(PEAK / RATIO, 1 - DUTY, RIPPLE)
    assert (primary, secondary) == pytest.approx((0.796, 6.50), rel=5e-3)
    assert primary + RATIO * secondary == pytest.approx(1.77, rel=5e-3)


def test_the_textbook_converter_draws_what_it_delivers():
    # 20 V · 5 A, without losses.
    assert drawn_power(INDUCTANCE, PEAK, RIPPLE, HERTZ) == pytest.approx(100.0)


def test_above_the_boundary_power_its_conduction_is_continuous():
    # 80 V over 2 · 16/15 mH · 150 kHz: 6400/320 = 20 W, below its 100 W.
    assert boundary_power(BUS, DUTY, INDUCTANCE, HERTZ) == pytest.approx(20.0)


# Power Integrations AN-19 (6/96), p. 14, with the valleys of AN-23 (7/99), table 5: reflected
# voltage and duty cycle recommended for 100/115 V, universal and 230 V.
@pytest.mark.parametrize("reflected, bus, drop, duty", [
    (135, 90, 10, 0.60), (60, 90, 0, 0.40), (135, 240, 10, 0.40)])
def test_2_o_to_q_recommended_duty_cycles(reflected, bus, drop, duty):
    assert duty_cycle(reflected, bus, drop) == pytest.approx(duty, abs=0.035)


def test_the_lowest_bus_voltage_gives_the_duty_cycle_back():
    assert duty_cycle(80.0, lowest_bus_voltage(80.0, 0.6, 5.0), 5.0) == pytest.approx(0.6)


def test_for_a_given_peak_current_discontinuous_conduction_draws_most():
    ratios = np.linspace(0, 1, 101)
    drawn = drawn_power(1e-3, 1.0, ratios, 65e3)
    assert drawn.argmax() == 100 and (np.diff(drawn) > 0).all()


def test_the_power_of_the_peak_current_is_the_bus_voltage_times_the_mean_current():
    # Two routes: stored energy times frequency, and volts times the trapezium's mean.
    # 1 mH, 1 A, K = 0.5 at 65 kHz and D = 0.4: V = K·I·L·f/D = 81.25 V.
    energy = drawn_power(1e-3, 1.0, 0.5, 65e3)
    assert energy == pytest.approx(81.25 * winding_average(1.0, 0.4, 0.5))


def test_the_output_follows_the_auxiliary_winding():
    # 5 turns and 12: (28 + 0.7)·5/12 − 0.45 = 11.508 V.
    assert supplied_voltage(28.0, 0.7, 0.45, 5.0, 12.0) == pytest.approx(11.508, abs=1e-3)


def test_the_window_of_the_supply_bounds_the_ratio_of_the_output_voltages():
    # The turns that hold 8 V at an output of 5 V: N_s/N_a = 5.45/8.7.
    turns = 5.45 / 8.7
    at_top = supplied_voltage(28.0, 0.7, 0.45, turns, 1.0)
    assert window_limited_voltage(5.0, 8.0, 28.0, 0.7, 0.45) == pytest.approx(float(at_top))


def test_without_a_window_there_is_one_voltage():
    assert window_limited_voltage(12.0, 15.0, 15.0, 0.7, 0.45) == pytest.approx(12.0)


FORMULAS = {reflected_voltage: 4, duty_cycle: 3, lowest_bus_voltage: 3, peak_current: 4,
            drawn_power: 4, boundary_power: 4, supplied_voltage: 5, window_limited_voltage: 5}


def test_every_formula_of_the_module_is_listed():
    assert {formula.__name__ for formula in FORMULAS} == {
        name for name, item in vars(flyback).items() if callable(item)}


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
