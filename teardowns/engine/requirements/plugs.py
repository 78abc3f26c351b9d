"""Sizes of mains plugs: bands in which a measured one is accepted."""
import numpy as np

from .table import Table

SIZES = Table(
    "Plug sizes", ("Plug", "Size", "from, mm", "to, mm"),
    (("europlug", "pin_diameter", 3.90, 4.10), ("europlug", "pin_length", 18.5, 19.5),
     ("europlug", "pin_spacing", 18.0, 19.2), ("europlug", "pin_spacing_tip", 17.0, 18.0),
     ("europlug", "pin_sleeve_diameter", 0.0, 3.8), ("europlug", "plug_body_width", 35.0, 35.6),
     ("europlug", "plug_body_height", 13.4, 14.0),
     ("bs1363", "pin_width", 6.2, 6.5), ("bs1363", "pin_thickness", 3.9, 4.1),
     ("bs1363", "earth_pin_width", 7.8, 8.1), ("bs1363", "earth_pin_thickness", 3.9, 4.1),
     ("bs1363", "pin_length", 17.2, 18.2), ("bs1363", "earth_pin_length", 22.2, 23.3),
     ("bs1363", "pin_spacing", 22.0, 22.4), ("bs1363", "pin_edge_distance", 9.5, np.inf),
     ("nema1", "pin_width", 6.1, 6.6), ("nema1", "neutral_pin_width", 7.7, 8.2),
     ("nema1", "pin_thickness", 1.4, 1.65), ("nema1", "pin_length", 15.9, 18.3),
     ("nema1", "pin_spacing", 12.4, 13.0)),
    "EN 50075 and BS 1363-1 by encyclopaedia articles and a plug museum, NEMA 1-15P by a plug "
    "maker's page; the bands are a reading of the tolerances, from memory.", "C")
CODES = tuple(dict.fromkeys(row[1] for row in SIZES.rows))
EDGE = 9.5e-3              # m: nearer to the edge a finger reaches a pin of BS 1363


def band(plug, code) -> tuple[np.ndarray, np.ndarray]:
    """Least and largest accepted size; NaN where none is known. [m] plug, code : (m,) text"""
    low, high = np.full(np.shape(code), np.nan), np.full(np.shape(code), np.nan)
    for kind, size, least, most in SIZES.rows:
        here = (plug == kind) & (code == size)
        low, high = np.where(here, least * 1e-3, low), np.where(here, most * 1e-3, high)
    return low, high
