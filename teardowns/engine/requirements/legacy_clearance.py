"""Clearances of the withdrawn IEC 60950-1, which older labels name: for information, no shortfall
follows from them."""
import numpy as np

from .table import Table, step_up

MM = 1e-3
LOW, HIGH = 150.0, 300.0        # V rms, line to neutral: mains above, and up to
BASIC, REINFORCED, FUNCTIONAL = 2.0, 4.0, 1.5       # mm
LEGACY = Table(
    "Clearances of IEC 60950-1, mains above 150 V up to 300 V, pollution degree 1 or 2",
    ("Insulation", "mm"),
    (("basic", BASIC), ("reinforced", REINFORCED),
     ("functional, line to neutral ahead of the fuse", FUNCTIONAL)),
    "IEC 60950-1, 2.10.3, table 2K: 4.0 mm reinforced and 1.5 mm functional in two test reports on "
    "chargers. Withdrawn; 3.0 mm reinforced with a quality programme from memory.", "A")
ADDED = Table(
    "Added to clearances of IEC 60950-1 by the peak working voltage",
    ("V peak up to", "basic, mm", "reinforced, mm"),
    ((420, 0.0, 0.0), (493, 0.1, 0.2), (567, 0.2, 0.4), (640, 0.3, 0.6), (713, 0.4, 0.8),
     (787, 0.5, 1.0), (860, 0.6, 1.2)),
    "IEC 60950-1, table 2L, by steps; two test reports on chargers print 4.2 mm at 428 V and "
    "4.4 mm at 530 V, the other rows are from memory.", "C")


def legacy_clearance(voltage, peak, reinforced) -> np.ndarray:
    """Least clearance from mains side to output that the withdrawn standard asked for.

    Parameters
    ----------
    voltage : (m,) float
        Mains, line to neutral, rms. [V]
    peak : (m,) float
        Peak working voltage across the barrier. [V]
    reinforced : (m,) bool
        Reinforced insulation, else basic.

    Returns
    -------
    (m,) float
        Clearance; NaN outside 150 V to 300 V mains, above 860 V peak and where an input is NaN. [m]

    Errors
    ------
    None: a table.

    References
    ----------
    .. [1] IEC 60950-1:2005 with amendments, 2.10.3, tables 2K and 2L.
    """
    voltage = np.asarray(voltage, float)
    limits, reinforced = ADDED.column(0), np.asarray(reinforced, bool)
    added = np.where(reinforced, step_up(limits, ADDED.column(2), peak),
                     step_up(limits, ADDED.column(1), peak))
    found = np.where(reinforced, REINFORCED, BASIC) + added
    return np.where((voltage > LOW) & (voltage <= HIGH), found * MM, np.nan)
