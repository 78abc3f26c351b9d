"""Voltage that a barrier has to withstand for a minute: IEC 62368-1:2018, 5.4.9.1."""
import numpy as np

from .table import Table, step_up

BY_TRANSIENT = Table(
    "Test voltage by required withstand voltage", ("V peak", "basic, V", "reinforced, V"),
    ((500, 500, 800), (800, 800, 1500), (1500, 1500, 2500), (2500, 2500, 4000),
     (4000, 4000, 6000)),
    "IEC 62368-1:2018, table 25; read in one open-source library; 4000 V d.c. for reinforced in a "
    "test report on a charger, 2021.", "B")
BY_OVERVOLTAGE = Table(
    "Test voltage by temporary overvoltage", ("Mains up to, V rms", "basic, V", "reinforced, V"),
    ((250, 2000, 4000), (600, 2500, 5000)),
    "IEC 62368-1:2018, table 27; read in one open-source library.", "B")
BY_PEAK = (1.3, 1.6)        # times the peak working voltage; table 26
LEGACY = Table(
    "Test voltage of the withdrawn IEC 60950-1",
    ("Working voltage up to, V peak", "basic, V rms", "reinforced, V rms"),
    ((210, 1000, 2000), (420, 1500, 3000)),
    "IEC 60950-1, table 5B, from memory; 3000 V at 530 V peak in a test report on a charger. "
    "Reinforced insulation stays at 3000 V up to 1410 V peak.", "C")
LEGACY_BEYOND = 1410.0      # V peak, to which reinforced insulation needs no more than the last row
MINUTE = 60.0               # s, of a type test; from memory


def required_strength(transient, voltage, peak, reinforced) -> np.ndarray:
    """Highest of the three methods. [V peak or d.c.]

    transient : (m,) float, mains transient [V peak]; voltage : mains, rms [V]
    peak : working voltage, peak [V]; reinforced : (m,) bool
    NaN beyond the tables or where an input is NaN.
    """
    transient, voltage, reinforced = np.broadcast_arrays(
        np.asarray(transient, float), np.asarray(voltage, float), np.asarray(reinforced, bool))
    column = np.where(reinforced, 2, 1)
    first = np.full(transient.shape, np.nan)
    for row in BY_TRANSIENT.rows:
        first = np.where(transient == row[0], np.take(row, column), first)
    low, high = BY_OVERVOLTAGE.rows
    third = np.where(voltage <= low[0], np.take(low, column),
                     np.where(voltage <= high[0], np.take(high, column), np.nan))
    second = np.where(reinforced, BY_PEAK[1], BY_PEAK[0]) * peak
    return np.maximum(np.maximum(first, second), third)


def legacy_strength(peak) -> np.ndarray:
    """Test voltage of reinforced insulation by the withdrawn IEC 60950-1. [V rms]

    peak : (m,) float, working voltage [V]; NaN beyond the table or where an input is NaN.
    """
    peak = np.asarray(peak, float)
    within = step_up(LEGACY.column(0), LEGACY.column(2), peak)
    return np.where((peak > LEGACY.rows[-1][0]) & (peak <= LEGACY_BEYOND), LEGACY.rows[-1][2],
                    within)
