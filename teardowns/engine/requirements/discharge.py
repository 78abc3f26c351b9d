"""What charged capacitors still hold after the plug was pulled: at the pins, and inside."""
import numpy as np

from .table import Table, interpolated

PINS = Table(
    "Voltage of a charged capacitor that may be touched", ("nF from", "ES1, V", "ES2, V"),
    ((4, 1000, 2000), (8, 500, 1000), (12, 350, 700), (18, 250, 500), (28, 200, 400),
     (41, 150, 300), (61, 125, 250), (91, 100, 200), (170, 75, 150), (300, 60, 120)),
    "IEC 62368-1:2018, 5.2.2.3, table 5; from memory, 60 V read in one source.", "C")
HARMLESS = 60.0            # V, from 300 nF on
LARGE = 300e-9             # F
AFTER = 2.0                # s after the plug was pulled
LEGACY_FROM, LEGACY_TIME = 0.1e-6, 1.0     # F, s: IEC 60950-1, 2.1.1.7, pluggable type A


def allowed_voltage(capacitance) -> np.ndarray:
    """ES1 limit of a charged capacitor by its capacitance [F], linear between the rows. [V]"""
    nano = np.minimum(np.asarray(capacitance, float) * 1e9, PINS.rows[-1][0])
    value, _, _ = interpolated(PINS.column(0), PINS.column(1), nano)
    return value


def voltage_after(time, capacitance, resistance, start) -> np.ndarray:
    r"""Voltage of a capacitor that discharges through a resistor.

    .. math:: V = V_0 e^{-t / RC}

    Parameters
    ----------
    time : (m,) float
        Since the supply was taken away. [s]
    capacitance, resistance : (m,) float
        [F], [Ω]
    start : (m,) float
        Voltage at first. [V]

    Returns
    -------
    (m,) float
        [V]

    Errors
    ------
    Formula: exact for a resistor; a converter that still draws current empties it sooner.
    Inputs: first order; dV/V = t/RC · (dR/R + dC/C).

    Examples
    --------
    >>> round(voltage_after(2.0, 0.47e-6, 4e6, 373.4), 1)
    128.9

    References
    ----------
    .. [1] IEC 60950-1, 2.1.1.7: after one time constant 37 % are left.
    """
    return start * np.exp(-time / (resistance * capacitance))


def time_until(voltage, capacitance, resistance, start) -> np.ndarray:
    """How long a resistor takes to bring a capacitor down to a voltage, 0 where it is below. [s]"""
    return np.maximum(resistance * capacitance * np.log(start / voltage), 0.0)


def largest_resistance(time, capacitance, start, voltage) -> np.ndarray:
    """The resistance that discharges just in time. [Ω]"""
    return time / (capacitance * np.log(start / voltage))


def stored_energy(capacitance, voltage) -> np.ndarray:
    """Energy of a charged capacitor, ½ C V². [J] capacitance [F], voltage [V]"""
    return 0.5 * capacitance * voltage**2


def dissipation(voltage, resistance) -> np.ndarray:
    """Power in a resistor across a voltage, V²/R. [W] voltage [V], resistance [Ω]"""
    return voltage**2 / resistance
