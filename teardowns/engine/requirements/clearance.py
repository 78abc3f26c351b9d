"""How far air has to part two circuits: IEC 62368-1:2018, 5.4.2."""
import numpy as np

from .mains_voltages import mains_transient, temporary_overvoltage
from .table import Table, interpolated, looked_up, rounded_up

MM = 1e-3
_HEADS = ("V peak up to", "basic PD1, mm", "basic PD2, mm", "basic PD3, mm", "reinforced PD1, mm",
          "reinforced PD2, mm", "reinforced PD3, mm")
SLOW = Table(
    "Clearance by voltage of up to 30 kHz", _HEADS,
    ((330, .01, .2, .8, .02, .4, 1.5), (400, .02, .2, .8, .04, .4, 1.5),
     (500, .04, .2, .8, .08, .4, 1.5), (600, .06, .2, .8, .12, .4, 1.5),
     (800, .13, .2, .8, .26, .4, 1.5), (1000, .26, .26, .8, .52, .52, 1.5),
     (1200, .42, .42, .8, .84, .84, 1.5), (1500, .76, .76, .8, 1.52, 1.52, 1.6),
     (2000, 1.27, 1.27, 1.27, 2.54, 2.54, 2.54), (2500, 1.8, 1.8, 1.8, 3.6, 3.6, 3.6),
     (3000, 2.4, 2.4, 2.4, 4.8, 4.8, 4.8), (4000, 3.8, 3.8, 3.8, 7.6, 7.6, 7.6),
     (5000, 5.7, 5.7, 5.7, 11.0, 11.0, 11.0), (6000, 7.9, 7.9, 7.9, 15.8, 15.8, 15.8)),
    "IEC 62368-1:2018, table 10; read in one open-source library, its basic columns also in a "
    "board calculator's table F.8 of IEC 60664-1:2020.", "B")
FAST = Table(
    "Clearance by voltage above 30 kHz, PD2; PD1 × 0.8, PD3 × 1.4",
    ("V peak up to", "basic, mm", "reinforced, mm"),
    ((600, .07, .14), (800, .22, .44), (1000, .6, 1.2), (1200, 1.68, 3.36), (1400, 2.82, 5.64),
     (1600, 4.8, 9.6), (1800, 8.04, 16.08), (2000, 13.2, 26.4)),
    "IEC 62368-1:2018, table 11 with its footnotes; read in a page that quotes the clause and in "
    "an open-source library.", "A")
WITHSTAND = Table(
    "Clearance by required withstand voltage", _HEADS,
    ((330, .01, .2, .8, .02, .4, 1.5), (400, .02, .2, .8, .04, .4, 1.5),
     (500, .04, .2, .8, .08, .4, 1.5), (600, .06, .2, .8, .12, .4, 1.5),
     (800, .10, .2, .8, .2, .4, 1.5), (1000, .15, .2, .8, .3, .4, 1.5),
     (1200, .25, .25, .8, .5, .5, 1.5), (1500, .5, .5, .8, 1.0, 1.0, 1.5),
     (2000, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0), (2500, 1.5, 1.5, 1.5, 3.0, 3.0, 3.0),
     (3000, 2.0, 2.0, 2.0, 3.8, 3.8, 3.8), (4000, 3.0, 3.0, 3.0, 5.5, 5.5, 5.5),
     (5000, 4.0, 4.0, 4.0, 8.0, 8.0, 8.0), (6000, 5.5, 5.5, 5.5, 8.0, 8.0, 8.0),
     (8000, 8.0, 8.0, 8.0, 14.0, 14.0, 14.0)),
    "IEC 62368-1:2018, table 14; basic columns as IEC 60664-1:2020, table F.2, case A, read in "
    "three places; reinforced read in one open-source library, at 2500 V also in a test report.",
    "A")
ALTITUDE = Table(
    "Altitude factor of clearances", ("m up to", "factor"),
    ((2000, 1.0), (3000, 1.14), (4000, 1.29), (5000, 1.48), (6000, 1.70), (7000, 1.95),
     (8000, 2.25), (9000, 2.62), (10000, 3.02)),
    "IEC 60664-1:2020, table A.2; IEC 62368-1:2018, table 16 to 5000 m. Read in a board "
    "calculator, an open-source library and a connector maker's catalogue. Rounding of an "
    "interpolated factor up to 0.01 from memory.", "A")
FAST_BY_POLLUTION = np.array([np.nan, 0.8, 1.0, 1.4])      # by degree
FINE, COARSE, FINE_UP_TO = 0.01, 0.1, 0.5      # mm: interpolated results are rounded up to these


def rounded_clearance(value, is_row) -> np.ndarray:
    """A row as printed; an interpolated result up to 0.01 mm, above 0.5 mm up to 0.1 mm. [mm]"""
    fine = np.where(value <= FINE_UP_TO, rounded_up(value, FINE), rounded_up(value, COARSE))
    return np.where(is_row, value, fine)


def by_table(table: Table, voltage, reinforced, pollution) -> np.ndarray:
    """From SLOW or WITHSTAND: (m,) mm; NaN above the table. voltage : peak [V]"""
    voltage, reinforced, pollution = np.broadcast_arrays(
        np.asarray(voltage, float), np.asarray(reinforced, bool), np.asarray(pollution, float))
    degree, is_known = known_degree(pollution)
    value, is_row, _ = looked_up(table, degree + 3 * reinforced, voltage)
    return np.where(is_known, rounded_clearance(value, is_row), np.nan)


def by_fast_peak(voltage, reinforced, pollution) -> np.ndarray:
    """From FAST: (m,) mm; 0 where no fast peak is known of (NaN), NaN above the table."""
    voltage, reinforced, pollution = np.broadcast_arrays(
        np.asarray(voltage, float), np.asarray(reinforced, bool), np.asarray(pollution, float))
    degree, is_known = known_degree(pollution)
    value, is_row, _ = looked_up(FAST, 1 + reinforced, voltage)
    found = rounded_clearance(value * FAST_BY_POLLUTION[degree], is_row & (degree == 2))
    return np.where(np.isnan(voltage), 0.0, np.where(is_known, found, np.nan))


def known_degree(pollution) -> tuple[np.ndarray, np.ndarray]:
    """(m,) int, 1 to 3, and whether it is one: what is no degree counts as 2 meanwhile."""
    is_known = np.isin(pollution, (1, 2, 3))
    return np.where(is_known, pollution, 2).astype(int), is_known


def altitude_factor(altitude) -> np.ndarray:
    """(m,) by how much thinner air lengthens a clearance, never below 1. altitude [m]"""
    value, is_row, _ = interpolated(ALTITUDE.column(0), ALTITUDE.column(1), altitude)
    return np.where(is_row, value, rounded_up(value, 0.01))


def required_clearance(voltage, peak, fast_peak, reinforced, pollution, category,
                       altitude) -> np.ndarray:
    r"""Least clearance by the larger of both procedures.

    .. math:: d = \max(d_{slow}, d_{fast}, d_{withstand}) \cdot k_{altitude}

    Parameters
    ----------
    voltage : (m,) float
        Mains, line to neutral, rms. [V]
    peak : (m,) float
        Largest repetitive peak across the barrier of up to 30 kHz. [V]
    fast_peak : (m,) float
        The same above 30 kHz; NaN where there is none. [V]
    reinforced : (m,) bool
        Reinforced insulation, else basic.
    pollution, category : (m,) float
        Pollution degree 1 to 3, overvoltage category 1 to 4. [1]
    altitude : (m,) float
        Highest place of use. [m]

    Returns
    -------
    (m,) float
        Clearance; NaN beyond the tables or where an input is NaN. [m]

    Errors
    ------
    None: tables. The product with the altitude factor is not rounded.

    References
    ----------
    .. [1] IEC 62368-1:2018, 5.4.2, tables 10, 11, 14 and 16.
    """
    slow = by_table(SLOW, np.maximum(peak, temporary_overvoltage(voltage)), reinforced, pollution)
    fast = by_fast_peak(fast_peak, reinforced, pollution)
    withstand = by_table(WITHSTAND, mains_transient(voltage, category), reinforced, pollution)
    return np.maximum(np.maximum(slow, fast), withstand) * altitude_factor(altitude) * MM
