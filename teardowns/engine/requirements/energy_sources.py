"""Which electrical energy may be touched, and which sources are limited."""
import numpy as np

from .table import Table

ELECTRICAL = Table(
    "Electrical energy sources", ("Class", "d.c., V", "a.c. rms, V", "a.c. peak, V", "d.c., mA",
                                  "a.c. rms, mA"),
    (("ES1", 60, 30, 42.4, 2, 0.5), ("ES2", 120, 50, 70.7, 25, 5)),
    "IEC 62368-1:2018, 5.2.2.2, table 4. Voltages read in power supply makers' pages and in an "
    "open-source library, currents from memory.", "A")
ES1_DC, ES2_DC = 60.0, 120.0          # V
ES1_PEAK, ES2_PEAK = 42.4, 70.7       # V, a.c. to 1 kHz and repetitive pulses
ES1_AC = 30.0                         # V rms, to 1 kHz
SOURCES = Table(
    "Power sources", ("Class", "W up to", "after, s"), (("PS1", 15, 3), ("PS2", 100, 5)),
    "IEC 62368-1:2018, 6.2.2; a test report; above PS2 it is PS3.", "B")
ARC_VOLTAGE, ARC_PRODUCT = 50.0, 15.0      # V and VA: arcing ignition source above both
LIMITED = Table(
    "Limited power source", ("U_oc up to, V", "I_sc, A", "S, VA"),
    ((20, "8.0", "5 · U_oc"), (30, "8.0", "100"), (60, "150 / U_oc", "100")),
    "IEC 60950-1, 2.5, table 2B, limited inherently or by electronics; IEC 62368-1, annex Q; three "
    "published pages. With an overcurrent device (table 2C): 1000 / U_oc A and 250 VA.", "A")


def shock_class(voltage) -> np.ndarray:
    """1, 2 or 3 for a d.c. voltage [V]; NaN for the unknown."""
    found = np.where(voltage <= ES1_DC, 1.0, np.where(voltage <= ES2_DC, 2.0, 3.0))
    return np.where(np.isnan(voltage), np.nan, found)


def shock_class_peak(peak) -> np.ndarray:
    """1, 2 or 3 for the peak of an a.c. voltage to 1 kHz [V]; NaN for the unknown."""
    found = np.where(peak <= ES1_PEAK, 1.0, np.where(peak <= ES2_PEAK, 2.0, 3.0))
    return np.where(np.isnan(peak), np.nan, found)


def is_mixed_es1(direct, alternating) -> np.ndarray:
    """Whether d.c. and a.c. rms together [V] may be touched: U_dc/60 + U_ac/30 ≤ 1."""
    return direct / ES1_DC + alternating / ES1_AC <= 1.0


def es1_voltage(frequency) -> np.ndarray:
    """A.c. limit of ES1 by frequency [Hz]: 30 V to 1 kHz, 30 + 0.4 f/kHz to 100 kHz, 70 V. [V]
    From memory."""
    kilo = np.asarray(frequency, float) / 1e3
    return np.where(kilo <= 1, ES1_AC, np.where(kilo <= 100, ES1_AC + 0.4 * kilo, 70.0))


def es2_voltage(frequency) -> np.ndarray:
    """A.c. limit of ES2 by frequency [Hz]: 50 V to 1 kHz, 50 + 0.9 f/kHz to 100 kHz, 140 V. [V]"""
    kilo = np.asarray(frequency, float) / 1e3
    return np.where(kilo <= 1, 50.0, np.where(kilo <= 100, 50.0 + 0.9 * kilo, 140.0))


def power_class(power) -> np.ndarray:
    """1, 2 or 3 by the power into a fault [W]; NaN for the unknown."""
    found = np.where(power <= SOURCES.rows[0][1], 1.0,
                     np.where(power <= SOURCES.rows[1][1], 2.0, 3.0))
    return np.where(np.isnan(power), np.nan, found)


def is_arcing(open_voltage, current) -> np.ndarray:
    """Whether opening the circuit can ignite: above 50 V (d.c. or peak) and above 15 VA."""
    return (open_voltage > ARC_VOLTAGE) & (open_voltage * current > ARC_PRODUCT)


def limited_current(open_voltage, with_device: bool = False) -> np.ndarray:
    """Largest current into a short of a limited source. [A] NaN above 60 V."""
    volts = np.asarray(open_voltage, float)
    most = 1000.0 / volts if with_device else np.where(volts <= 30.0, 8.0, 150.0 / volts)
    return np.where(volts <= 60.0, most, np.nan)


def limiting_device(open_voltage) -> np.ndarray:
    """Largest rating of the overcurrent device of a limited source: 5 A to 20 V, then 100/U to
    60 V. [A] NaN above. IEC 60950-1, 2.5, table 2C, from memory."""
    volts = np.asarray(open_voltage, float)
    return np.where(volts <= 20.0, 5.0, np.where(volts <= 60.0, 100.0 / volts, np.nan))


def limited_power(open_voltage, with_device: bool = False) -> np.ndarray:
    """Largest apparent power of a limited source. [VA] NaN above 60 V."""
    volts = np.asarray(open_voltage, float)
    most = np.full(volts.shape, 250.0) if with_device else np.where(
        volts <= 20.0, 5.0 * volts, 100.0)
    return np.where(volts <= 60.0, most, np.nan)
