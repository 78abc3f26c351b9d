"""Energy source classes and limited sources."""
import numpy as np
import pytest

from teardowns.engine.requirements.energy_sources import (
    ELECTRICAL,
    es1_voltage,
    es2_voltage,
    is_arcing,
    is_mixed_es1,
    limited_current,
    limited_power,
    limiting_device,
    power_class,
    shock_class,
    shock_class_peak,
)

NAN = float("nan")


# 60 V d.c.: power supply makers' pages.
@pytest.mark.parametrize("volts, expected", [
    (5.1, 1), (48.0, 1), (60.0, 1), (61.0, 2), (120.0, 2), (121.0, 3)])
def test_shock_classes(volts, expected):
    assert shock_class(volts) == expected
    assert np.isnan(shock_class(NAN))


# 50 + 0.9 · 50 = 95 V at 50 kHz: formula in an open-source library.
@pytest.mark.parametrize("hertz, volts", [(50.0, 50.0), (50e3, 95.0), (200e3, 140.0)])
def test_es2_rises_with_frequency(hertz, volts):
    assert es2_voltage(hertz) == pytest.approx(volts)


# A test report: up to 100 W PS2, above PS3; 12 W PS1.
@pytest.mark.parametrize("watts, expected", [(12.0, 1), (15.0, 1), (100.0, 2), (101.0, 3)])
def test_power_classes(watts, expected):
    assert power_class(watts) == expected


def test_an_arc_needs_voltage_and_power():
    assert is_arcing(325.0, 0.05)          # 16.3 VA
    assert not is_arcing(325.0, 0.04) and not is_arcing(48.0, 1.0)


# Three published pages of table 2B: 12 V 8 A 60 VA; 20 V 8 A 100 VA; 48 V 150/48 = 3.125 A 100 VA.
@pytest.mark.parametrize("volts, amps, power", [
    (12.0, 8.0, 60.0), (20.0, 8.0, 100.0), (48.0, 3.125, 100.0)])
def test_limited_sources(volts, amps, power):
    assert limited_current(volts) == amps and limited_power(volts) == power


def test_behind_a_device_more_is_allowed_and_above_60_v_nothing_is_known():
    assert limited_current(24.0, with_device=True) == pytest.approx(41.67, abs=0.01)    # 1000/24
    assert limited_power(24.0, with_device=True) == 250.0
    assert np.isnan(limited_current(61.0)) and np.isnan(limited_power(61.0))


# A certifier's answers: a repetitive pulse of 71 V is ES3. 30 V and 50 V rms have peaks of 42.4 and
# 70.7 V.
@pytest.mark.parametrize("peak, expected", [(42.4, 1), (42.5, 2), (70.7, 2), (71.0, 3)])
def test_shock_classes_of_a_peak(peak, expected):
    assert shock_class_peak(peak) == expected
    assert np.isnan(shock_class_peak(NAN))


def test_direct_and_alternating_voltage_add_up():
    assert is_mixed_es1(30.0, 15.0) and not is_mixed_es1(30.0, 15.1)       # 30/60 + 15/30 = 1
    assert not is_mixed_es1(NAN, 1.0)


# 30 + 0.4 · 50 = 50 V at 50 kHz, from memory.
@pytest.mark.parametrize("hertz, volts", [(50.0, 30.0), (50e3, 50.0), (200e3, 70.0)])
def test_es1_rises_with_frequency(hertz, volts):
    assert es1_voltage(hertz) == pytest.approx(volts)


# Table 2C, by hand: 100/24 = 4.17 A.
@pytest.mark.parametrize("volts, amps", [(5.0, 5.0), (20.0, 5.0), (24.0, 4.17), (60.0, 1.67)])
def test_the_device_of_a_limited_source(volts, amps):
    assert limiting_device(volts) == pytest.approx(amps, abs=0.005)
    assert np.isnan(limiting_device(61.0))
# A.c. limits are those of a sine: 30 V rms peaks at 42.4 V, 50 V at 70.7 V (a certifier's answers).
def test_limits_of_a_peak_are_those_of_a_sine():
    for _, _, rms, peak, *_ in ELECTRICAL.rows:
        assert peak == pytest.approx(np.sqrt(2.0) * rms, abs=0.05)


# At the edges of table 2B by hand: 8 A up to 30 V, then 150/U; 5 · 20 = 100 VA.
@pytest.mark.parametrize("volts, amps, power", [
    (5.0, 8.0, 25.0), (30.0, 8.0, 100.0), (30.1, 4.983, 100.0), (60.0, 2.5, 100.0)])
def test_edges_of_limited_sources(volts, amps, power):
    assert limited_current(volts) == pytest.approx(amps, abs=0.001)
    assert limited_power(volts) == pytest.approx(power)


def test_an_unknown_power_has_no_class():
    assert np.isnan(power_class(NAN))
