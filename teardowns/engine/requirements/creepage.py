"""How far a surface has to part two circuits: IEC 62368-1:2018, 5.4.3."""
import numpy as np

from .clearance import known_degree
from .table import Table, looked_up, rounded_up

MM = 1e-3
CREEPAGE = Table(
    "Creepage, basic or supplementary insulation; reinforced is twice as much",
    ("V rms up to", "PD1, mm", "PD2 I, mm", "PD2 II, mm", "PD2 III, mm", "PD3 I, mm",
     "PD3 II, mm", "PD3 III, mm"),
    ((10, .08, .40, .40, .40, 1.00, 1.00, 1.00), (12.5, .09, .42, .42, .42, 1.05, 1.05, 1.05),
     (16, .10, .45, .45, .45, 1.10, 1.10, 1.10), (20, .11, .48, .48, .48, 1.20, 1.20, 1.20),
     (25, .125, .50, .50, .50, 1.25, 1.25, 1.25), (32, .14, .53, .53, .53, 1.30, 1.30, 1.30),
     (40, .16, .56, .80, 1.10, 1.40, 1.60, 1.80), (50, .18, .60, .85, 1.20, 1.50, 1.70, 1.90),
     (63, .20, .63, .90, 1.25, 1.60, 1.80, 2.00), (80, .22, .67, .95, 1.30, 1.70, 1.90, 2.10),
     (100, .25, .71, 1.00, 1.40, 1.80, 2.00, 2.20), (125, .28, .75, 1.05, 1.50, 1.90, 2.10, 2.40),
     (160, .32, .80, 1.10, 1.60, 2.00, 2.20, 2.50), (200, .42, 1.00, 1.40, 2.00, 2.50, 2.80, 3.20),
     (250, .56, 1.25, 1.80, 2.50, 3.20, 3.60, 4.00), (320, .75, 1.60, 2.20, 3.20, 4.00, 4.50, 5.00),
     (400, 1.00, 2.00, 2.80, 4.00, 5.00, 5.60, 6.30),
     (500, 1.30, 2.50, 3.60, 5.00, 6.30, 7.10, 8.00),
     (630, 1.80, 3.20, 4.50, 6.30, 8.00, 9.00, 10.0),
     (800, 2.40, 4.00, 5.60, 8.00, 10.0, 11.0, 12.5),
     (1000, 3.20, 5.00, 7.10, 10.0, 12.5, 14.0, 16.0)),
    "IEC 62368-1:2018, table 17, as IEC 60664-1:2020, table F.5. Read in an open-source library "
    "and in a connector maker's catalogue, every cell compared; partly in two more places.", "A")
# Material group → tracking index from, up to; the classes that are printed on boards beside it.
MATERIALS = Table(
    "Material groups", ("Group", "CTI from", "CTI below", "UL class (PLC)"),
    (("I", 600, np.inf, "0"), ("II", 400, 600, "1"), ("IIIa", 175, 400, "2 and 3"),
     ("IIIb", 100, 175, "4")),
    "IEC 60664-1:2020, 4.8.1; read in a board calculator and on three board makers' pages. "
    "Standard FR-4 is sold as CTI of at least 175: IIIa.", "A")
STEP = 0.1      # mm


def basic_creepage(voltage, group, pollution) -> np.ndarray:
    """(m,) mm, rounded up to 0.1 between rows but never above the next row; NaN above the table.

    voltage : (m,) float, rms [V]; group : (m,) text, "" counts as III; pollution : (m,) float
    """
    voltage, group, pollution = np.broadcast_arrays(
        np.asarray(voltage, float), np.asarray(group, dtype=str), np.asarray(pollution, float))
    degree, is_known = known_degree(pollution)
    third = np.select([group == "I", group == "II"], [0, 1], 2)
    value, is_row, above = looked_up(CREEPAGE, np.where(degree == 1, 1, 3 * degree - 4 + third),
                                     voltage)
    found = np.where(is_row, value, np.minimum(rounded_up(value, STEP), above))
    return np.where(is_known, found, np.nan)


def required_creepage(voltage, group, reinforced, pollution, clearance) -> np.ndarray:
    r"""Least creepage: the table, doubled for reinforced insulation, and never below the clearance.

    .. math:: d = \max(k \cdot d_{table}, d_{clearance})

    Parameters
    ----------
    voltage : (m,) float
        Working voltage across the barrier, rms. [V]
    group : (m,) text
        Material group I, II, IIIa or IIIb; "" counts as III.
    reinforced : (m,) bool
        Reinforced insulation, else basic.
    pollution : (m,) float
        Pollution degree 1 to 3. [1]
    clearance : (m,) float
        Required clearance of the same path. [m]

    Returns
    -------
    (m,) float
        Creepage; NaN above 1000 V or where an input is NaN. [m]

    Errors
    ------
    None: a table. Rounding before or after doubling differs by 0.1 mm at most.

    References
    ----------
    .. [1] IEC 62368-1:2018, 5.4.3, table 17; test reports on chargers round before doubling.
    """
    twice = np.where(reinforced, 2.0, 1.0)
    return np.maximum(basic_creepage(voltage, group, pollution) * twice * MM, clearance)
