"""How hot windings and parts may become, in the warmest air that the unit is made for."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS

from .table import Table

WINDINGS = Table(
    "Winding temperature", ("Thermal class", "by resistance, °C", "by thermocouple, °C"),
    ((105, 100, 90), (120, 115, 105), (130, 120, 110), (155, 140, 130), (180, 165, 155)),
    "IEC 62368-1:2018, table 9; IEC 60950-1, table 4B; 110 °C in a test report on a charger, the "
    "others from memory.", "C")
KNOWN_CLASS = 130.0           # whose limit a test report prints
USUAL_AMBIENT = 25.0          # °C, where none is marked
PRINTED = (85.0, 105.0)       # °C: what capacitors usually bear
SAME_LOAD = 0.05              # how far the load may lie from the printed output and be as good
BOARDS = (105.0, 130.0)       # °C: boards without and with a usual mark


def corrected(temperature, ambient, rated_ambient) -> np.ndarray:
    r"""A temperature in the warmest allowed air.

    .. math:: T' = T + T_{ma} - T_a

    temperature, ambient, rated_ambient : (m,) float [°C]; without a marked ambient 25 °C is taken.
    NaN where temperature or ambient is NaN. Source: IEC 62368-1:2018, B.2.6, from memory.
    """
    most = np.where(np.isnan(rated_ambient), USUAL_AMBIENT, rated_ambient)
    return temperature + most - ambient


def decided_by_load(grade, load, printed) -> np.ndarray:
    """(m,) grades of a temperature; cannot tell where a larger load could undo a pass, or where
    more than the printed output was asked for.

    load, printed : (m,) float, output power during the reading and as printed [W]; NaN where
    either is unknown: the reading is taken as made at the printed output.
    """
    cooler = (grade == MEETS) & (load < (1 - SAME_LOAD) * printed)
    hotter = (grade == FALLS_SHORT) & (load > (1 + SAME_LOAD) * printed)
    return np.where(cooler | hotter, CANNOT_TELL, grade)


def winding_limit(thermal_class) -> np.ndarray:
    """By thermocouple, of a known class; NaN else. [°C]"""
    found = np.full(np.shape(thermal_class), np.nan)
    for row in WINDINGS.rows:
        found = np.where(thermal_class == row[0], float(row[2]), found)
    return found
