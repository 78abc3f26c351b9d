"""What the international efficiency mark asks of an external power supply.

The mark is a Roman numeral beside the ratings. VI is in force in the European Union and the
United States; IV and V stand on older plates.
"""
from typing import NamedTuple

import numpy as np

# Categories. Low voltage: nameplate below 6 V and at least 0.55 A. Multiple voltage: more than
# one output voltage at the same time; a port that switches between voltages has one at a time.
AC_AC, AC_DC, LOW_VOLTAGE, LOW_VOLTAGE_AC_AC, MULTIPLE_VOLTAGE = range(5)
LOW_VOLTS, LOW_AMPERES = 6.0, 0.55
COVERED = 250.0              # W; the mark's tables end here, but for level VI in the United States


class Steps(NamedTuple):
    """slope·P + offset up to 1 W; log·ln P − linear·P + constant up to `knee`; `top` above."""

    slope: float
    offset: float
    log: float
    linear: float
    constant: float
    knee: float
    top: float


_VI = Steps(0.5, 0.160, 0.071, 0.0014, 0.67, 49.0, 0.88)
_VI_LOW = Steps(0.517, 0.087, 0.0834, 0.0014, 0.609, 49.0, 0.87)
_V = Steps(0.480, 0.140, 0.0626, 0.0, 0.622, 49.0, 0.87)
_V_LOW = Steps(0.497, 0.067, 0.075, 0.0, 0.561, 49.0, 0.86)
_IV = Steps(0.5, 0.0, 0.09, 0.0, 0.5, 51.0, 0.85)
EFFICIENCY = {
    6: {AC_AC: _VI, AC_DC: _VI, LOW_VOLTAGE: _VI_LOW, LOW_VOLTAGE_AC_AC: _VI_LOW,
        MULTIPLE_VOLTAGE: Steps(0.497, 0.067, 0.075, 0.0, 0.561, 49.0, 0.86)},
    5: {AC_AC: _V, AC_DC: _V, LOW_VOLTAGE: _V_LOW, LOW_VOLTAGE_AC_AC: _V_LOW},
    4: {AC_AC: _IV, AC_DC: _IV, LOW_VOLTAGE: _IV, LOW_VOLTAGE_AC_AC: _IV},
}
# No-load input [W]: up to the bound, above it. V: up to below 50 W.
NO_LOAD = {
    6: {AC_AC: (0.21, 0.21), AC_DC: (0.10, 0.21), LOW_VOLTAGE: (0.10, 0.21),
        LOW_VOLTAGE_AC_AC: (0.21, 0.21), MULTIPLE_VOLTAGE: (0.30, 0.30)},
    5: {AC_AC: (0.5, 0.5), AC_DC: (0.3, 0.5), LOW_VOLTAGE: (0.3, 0.5),
        LOW_VOLTAGE_AC_AC: (0.5, 0.5)},
    4: {AC_AC: (0.5, 0.5), AC_DC: (0.5, 0.5), LOW_VOLTAGE: (0.5, 0.5),
        LOW_VOLTAGE_AC_AC: (0.5, 0.5)},
}
NO_LOAD_KNEE = {6: 49.0, 5: np.nextafter(50.0, 0.0), 4: COVERED}
LARGE_EFFICIENCY, LARGE_NO_LOAD = 0.875, 0.5      # level VI above 250 W, from memory


def single_voltage_category(voltage, current):
    """(n,) int: low voltage or plain AC-DC, by the nameplate of one output.

    A voltage or current that is not printed makes no low voltage model, which is the more
    demanding case: ask `minimum_efficiency` of both before holding it against a unit.
    """
    low = (voltage < LOW_VOLTS) & (current >= LOW_AMPERES)
    return np.where(low, LOW_VOLTAGE, AC_DC)


def minimum_efficiency(power, category, level):
    r"""Average active efficiency that a mark asks for at least.

    .. math:: \eta = a P + b \;(P \le 1), \quad
              \eta = c \ln P - d P + e \;(P \le 49), \quad \eta = \eta_{top}

    Parameters
    ----------
    power : (n,) float
        Nameplate output power. [W]
    category : (n,) int
        AC_AC, AC_DC, LOW_VOLTAGE, LOW_VOLTAGE_AC_AC or MULTIPLE_VOLTAGE of this file. [1]
    level : (n,) float
        4, 5 or 6 for the marks IV, V and VI. [1]

    Returns
    -------
    (n,) float
        Mean of the efficiencies at 100, 75, 50 and 25 % of the nameplate current; NaN where the
        mark says nothing: other levels, several voltages before VI, no power above zero, and
        above 250 W before VI. [1]

    Errors
    ------
    Formula: exact, by definition. It jumps at 1 W and at 49 W.
    Holds for: 115 V 60 Hz and 230 V 50 Hz (voltages from memory). Above 250 W the European
    regulation asks nothing; the value of level VI is that of the United States, from memory.

    Examples
    --------
    >>> round(float(minimum_efficiency(27.0, AC_DC, 6)), 4)
    0.8662

    References
    ----------
    .. [1] VI: Regulation (EU) 2019/1782, Annex II; 10 CFR 430.32(w). V: ENERGY STAR program
       requirements for external power supplies, version 2.0, tables 1 and 2, and AS/NZS 4665.2,
       table 5. IV: 42 U.S.C. 6295(u)(3)(A).
    """
    power, category, level = np.broadcast_arrays(np.asarray(power, float), category, level)
    found = np.full(power.shape, np.nan)
    for number, table in EFFICIENCY.items():
        for kind, steps in table.items():
            asked = (level == number) & (category == kind)
            found = np.where(asked, _stepped(power, steps), found)
    return _covered(power, level, found, LARGE_EFFICIENCY)


def no_load_limit(power, category, level):
    r"""Input power without load that a mark allows at most.

    Parameters
    ----------
    power : (n,) float
        Nameplate output power. [W]
    category : (n,) int
        AC_AC, AC_DC, LOW_VOLTAGE, LOW_VOLTAGE_AC_AC or MULTIPLE_VOLTAGE of this file. [1]
    level : (n,) float
        4, 5 or 6 for the marks IV, V and VI. [1]

    Returns
    -------
    (n,) float
        Input power; NaN where the mark says nothing, as `minimum_efficiency`. [W]

    Errors
    ------
    Formula: exact, by definition. It jumps at 49 W.
    Holds for: as `minimum_efficiency`.

    Examples
    --------
    >>> float(no_load_limit(18.0, AC_DC, 6)), float(no_load_limit(65.0, AC_DC, 6))
    (0.1, 0.21)

    References
    ----------
    .. [1] VI: Regulation (EU) 2019/1782, Annex II; 10 CFR 430.32(w). V: ENERGY STAR program
       requirements for external power supplies, version 2.0, table 4 (AC-AC from memory), and
       AS/NZS 4665.2, table 6. IV: 42 U.S.C. 6295(u)(3)(A).
    """
    power, category, level = np.broadcast_arrays(np.asarray(power, float), category, level)
    found = np.full(power.shape, np.nan)
    for number, table in NO_LOAD.items():
        for kind, (small, large) in table.items():
            asked = (level == number) & (category == kind)
            allowed = np.where(power <= NO_LOAD_KNEE[number], small, large)
            found = np.where(asked, allowed, found)
    return _covered(power, level, found, LARGE_NO_LOAD)


def _stepped(power, steps):
    middle = (steps.log * np.log(np.where(power > 0, power, np.nan)) - steps.linear * power
              + steps.constant)
    return np.where(power <= 1.0, steps.slope * power + steps.offset,
                    np.where(power <= steps.knee, middle, steps.top))


def _covered(power, level, found, large):
    """NaN where there is no power; above 250 W the value of level VI, and none before it."""
    beyond = np.where((level == 6) & ~np.isnan(found), large, np.nan)
    return np.where(power > COVERED, beyond, np.where(power > 0, found, np.nan))
