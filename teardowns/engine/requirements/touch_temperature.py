"""How hot a surface may be that people touch: IEC 62368-1:2018, table 38."""
import numpy as np

from .table import Table

SURFACES = Table(
    "Touch temperature by how long a part is touched",
    ("Contact", "metal TS1, °C", "glass TS1, °C", "plastic TS1, °C", "metal TS2, °C",
     "glass TS2, °C", "plastic TS2, °C"),
    (("held, over 1 min", 48, 48, 48, 58, 58, 58),
     ("held, 10 s to 1 min", 51, 56, 60, 61, 66, 70),
     ("touched, 1 s to 10 s", 60, 71, 77, 70, 81, 87),
     ("need not be touched, less than 1 s", 70, 85, 94, 80, 95, 104)),
    "IEC 62368-1:2018, table 38; plastic 48, 77 and 94 °C in threads of a product-safety list, the "
    "other cells from memory. Measured near 25 °C, without correction.", "A")
BRIEF, BRIEFEST = 2, 3           # rows between which a charger's case lies
USUAL_AIR = (20.0, 30.0)         # °C: what "near 25 °C" is taken to be; from memory
LEGACY = {"plastic": 95.0, "glass": 80.0, "metal": 70.0}      # °C, IEC 60950-1, table 4C


def in_usual_air(temperature, air) -> np.ndarray:
    """What a surface would reach in the nearest air that the limits are made for. [°C]

    temperature, air : (m,) float, as read [°C]; of unknown air the reading stands.
    A surface stays as much above the air (IEC 62368-1:2018, B.2.6, from memory).
    """
    shift = np.clip(air, *USUAL_AIR) - air
    return temperature + np.where(np.isnan(air), 0.0, shift)


def largest_temperature(metal, row: int) -> np.ndarray:
    """TS1 of a metal or a plastic case for one row of SURFACES. [°C] metal : (m,) bool"""
    return np.where(metal, SURFACES.rows[row][1], SURFACES.rows[row][3]).astype(float)
