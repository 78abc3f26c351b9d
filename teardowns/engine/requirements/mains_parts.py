"""What the parts ahead of the converter have to be rated for."""
from dataclasses import dataclass

import numpy as np

from .barriers import fits_more, may_fit_more, plug_mains
from .table import Table
from .touch_current import ABOVE_RATED, USUAL_MAINS

VARISTOR = 1.25             # times the rated mains voltage; IEC 62368-1, G.8, from memory
PRESENT = ("recorded", "not_readable")     # states of a part that is there
LOWEST_MAINS = 100.0        # V, of any country; where the plate was not read
# V, below which no capacitor for any mains is rated (from memory); beside a class of IEC 60384-14
# such a rating is misread.
LOWEST_BULK = 100.0
DOUBLING_MAINS = 120.0      # V, up to which a voltage doubler doubles (common practice)
FUSE_MARKS = Table(
    "Marks of a fuse", ("Mark", "Meaning"),
    (("F, M, T", "quick, medium, time-lag"), ("number and A", "rated current"),
     ("L", "breaks 35 A or ten times its rated current, whichever is more"),
     ("E", "breaks 150 A"), ("H", "breaks 1500 A"), ("number and V", "rated voltage")),
    "IEC 60127, from memory.", "C")
PROTECTION = Table(
    "First part in the line conductor", ("Found", "Grade"),
    (("fuse, voltage mark at least the rated mains", "meets"),
     ("fuse, 125 V on a unit for 200 to 250 V", "falls short"),
     ("fusible resistor of a known type", "meets"),
     ("plain resistor in place of a fuse", "cannot tell"),
     ("narrow track or wire link in place of a fuse", "falls short"),
     ("nothing, line path traced", "falls short"),
     ("nothing, line path not traced", "cannot tell"),
     ("varistor or capacitor ahead of the fuse", "cannot tell, for review")),
    "IEC 62368-1:2018, 6.3, 6.4.3, G.3.4, G.3.5; IEC 60950-1, 2.7.", "A")


@dataclass(frozen=True, slots=True)
class RatedMains:
    """Highest rated mains voltage, rms, at both ends of what is assumed.

    low, high : (m,) float [V]; equal where the plate or the plug says it
    assumed : by key of engine.assumptions, (m,) bool
    """

    low: np.ndarray
    high: np.ndarray
    assumed: dict[str, np.ndarray]


def rated_mains(rated_voltage_high, plug) -> RatedMains:
    """What a rating is compared with: the plate, else the plug's country, else 100 V and 240 V.
    A plug that fits higher mains than the plate is the demanding end.

    The rows of the insulation tables (150 V, 300 V) are no mains voltages: beside 150 V a 125 V
    fuse would look too low in a unit for 120 V.
    """
    rated = np.asarray(rated_voltage_high, float)
    plug = np.broadcast_to(np.asarray(plug, dtype=str), rated.shape)
    by_plug = plug_mains(plug)
    unread, above = np.isnan(rated), fits_more(by_plug, rated)
    known = np.where(unread, by_plug, rated)
    unknown = np.isnan(known)
    return RatedMains(
        np.where(unknown, LOWEST_MAINS, known),
        np.select([unknown, above], [USUAL_MAINS, by_plug], known),
        {"rated_mains": unknown, "plug_mains": unread & ~unknown, "plug_above_plate": above,
         "plug_fits_plate": may_fit_more(by_plug, rated)})


def bulk_voltage(mains, doubler) -> np.ndarray:
    r"""Highest voltage on one bulk capacitor without a corrector.

    .. math:: V = \sqrt{2} \cdot 1.1\, U

    mains : (m,) float, highest rated, rms [V]; doubler : (m,) bool, each half sees half. [V]
    Engineering rule: a part is used within its rating (IEC 62368-1, 4.1.2).
    """
    whole = np.sqrt(2.0) * ABOVE_RATED * np.asarray(mains, float)
    return np.where(doubler, 0.5 * whole, whole)


def inrush_current(mains, resistance) -> np.ndarray:
    """Peak of the first surge into an empty capacitor. [A] mains rms [V], resistance [Ω]"""
    return np.sqrt(2.0) * mains / resistance
