"""The oracle against a circuit simulator: ngspice 39, bridge, capacitor, constant-power load."""
import numpy as np
import pytest

from .circuit import DIODE_DROP, bus_power, needed_capacitance, valley_voltage

# bridge?, V rms, Hz, µF, W, lowest bus voltage with near-ideal diodes (60 mV in all), and with
# a silicon bridge of 1 A and 4.7 Ω: runs of ngspice 39, settled period
NGSPICE = [
    (True, 85, 60, 33, 18.75, 86.30, 84.04),
    (True, 85, 47, 10, 5, 82.27, 80.51),
    (True, 85, 50, 10, 7, 70.62, 68.61),
    (True, 90, 50, 15, 7.5, 93.38, 91.62),
    (True, 90, 60, 22, 12, 96.37, 94.44),
    (True, 100, 50, 4.7, 3, 102.55, 100.99),
    (True, 115, 60, 6.8, 6.25, 121.92, 120.31),
    (True, 195, 50, 10, 12, 237.27, 235.75),
    (True, 230, 50, 4.7, 6.25, 288.77, 287.42),
    (True, 230, 50, 2.2, 6.25, 249.65, 248.20),
    (True, 264, 50, 10, 25, 314.44, 312.84),
    (True, 90, 47, 82, 33, 98.09, 95.07),
    (False, 90, 50, 10, 2.5, 86.83, 85.93),
    (False, 230, 50, 4.7, 3, 286.86, 286.19),
    (False, 230, 50, 2.2, 3, 240.49, 239.78),
    (True, 90, 50, 10, 8.58, 70.00, 67.82),
    (True, 100, 50, 10, 11.90, 69.93, 67.60),
]
FULL, VOLTS, HERTZ, MICROFARADS, WATTS, IDEAL, REAL = (
    np.array(column) for column in zip(*NGSPICE, strict=True))
FARADS = MICROFARADS * 1e-6


def test_ideal_diodes_agree_with_ngspice():
    found = valley_voltage(WATTS, FARADS, VOLTS, HERTZ, FULL, drop=0.06)
    assert found == pytest.approx(IDEAL, abs=0.12)


def test_real_diodes_and_resistance_agree_with_ngspice():
    drop = DIODE_DROP * np.where(FULL, 2, 1)        # a silicon diode's drop varies by about 0.1 V
    found = valley_voltage(WATTS, FARADS, VOLTS, HERTZ, FULL, drop, resistance=4.7)
    assert found == pytest.approx(REAL, abs=0.4)


def test_the_table_agrees_with_stepping_in_volts():
    minimum = np.array([45.0, 60.0, 75.0, 90.0])
    resistance = np.array([0.0, 2.0, 5.0, 9.0])
    power = bus_power(22e-6, 100.0, 50.0, True, minimum, resistance)
    found = valley_voltage(power, 22e-6, 100.0, 50.0, True, 2 * DIODE_DROP, resistance)
    assert found == pytest.approx(minimum, abs=0.7)     # 0.7 V of the drop, |cos| against it


def test_no_load_leaves_the_bus_at_the_crest():
    # sqrt(2) × 230 V = 325.27 V
    assert valley_voltage(0.0, 10e-6, 230.0, 50.0) == pytest.approx(325.27, abs=0.01)


def test_too_much_load_collapses():
    # The diodes stop at angle x, sin 2x = 2 kappa; what the capacitor holds there just lasts to
    # the zero of the mains if cos x = 2 sin x (pi/2 - x): x = 0.405, kappa = 0.362, and
    # P = kappa w C V² = 0.362 × 314.16 × 10e-6 × 2 × 85² = 16.43 W
    assert valley_voltage(16.0, 10e-6, 85.0, 50.0) > 0
    assert valley_voltage(16.6, 10e-6, 85.0, 50.0) == 0


def test_the_needed_capacitor_carries_the_power():
    power = np.array([3.0, 20.0, 60.0])
    part = needed_capacitance(power, 100.0, 50.0, True, 70.0, 3.0)
    assert bus_power(part, 100.0, 50.0, True, 70.0, 3.0) == pytest.approx(power, rel=1e-6)


def test_no_capacitor_holds_the_bus_above_the_crest():
    assert bus_power(10e-6, 100.0, 50.0, np.array([True]), 145.0, 0.0) == 0
