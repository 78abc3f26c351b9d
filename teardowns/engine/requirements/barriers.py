"""Which insulation a barrier needs, and how far its circuits have to be apart at both ends of what
is assumed."""
from dataclasses import dataclass

import numpy as np

from .clearance import required_clearance
from .creepage import required_creepage
from .mains_voltages import (
    HIGH_MAINS,
    LOW_MAINS,
    assumed_working_voltage,
    mains_transient,
    sine_peak,
)
from .table import Table

INSULATION = Table(
    "Insulation that a barrier needs", ("Barrier", "Between", "Insulation"),
    (("PRI_SEC", "mains side and output or touchable metal", "reinforced"),
     ("PRI_ENC", "mains side and the outside of a plastic case", "reinforced"),
     ("L_N", "line and neutral ahead of the fuse", "basic"),
     ("PRI_PE", "mains side and protective earth", "basic"),
     ("FUNC", "inside one circuit", "functional, not graded")),
    "IEC 62368-1:2018, 5.3, 5.4.2, B.4.4; test reports on chargers split them so.", "A")
REINFORCED = ("PRI_SEC", "PRI_ENC")
BASIC = ("L_N", "PRI_PE")
UNEARTHED = ("europlug", "nema1")      # plugs without a pin for protective earth
EARTHED_PLUGS = ("schuko", "nema5")    # those that have one; others may or may not
# Why a distance may decide nothing, or nothing that is there; of clearance and creepage alike.
OPEN_PATHS = (
    "This plug has no earth: whether a hand can touch what this path ends at was not recorded. "
    "Where it can, the path is one from the mains side to the output.",
    "Another reading of the same place says otherwise: the evidence does not decide which "
    "of them holds.",
    "It would lie below the tabulated figure under every documented assumption if one solder "
    "joint opened; this is not the distance as it was found.",
    "It would lie below the tabulated figure under every documented assumption with loose "
    "metal in its worst place; this is not the distance as it was found.",
)
POLLUTION, DIRTY, CATEGORY, ALTITUDE = 2.0, 3.0, 2.0, 2000.0
FAST = 30e3                     # Hz: above it the peak counts as fast
HIGHEST = 1.1                   # times the rated mains voltage that a unit has to bear
PLUG_MAINS = {"europlug": 230.0, "schuko": 230.0, "bs1363": 230.0, "as3112": 230.0,
              "nema1": 120.0, "nema5": 120.0}


@dataclass(frozen=True, slots=True)
class Supply:
    """The mains at both ends of what is assumed.

    low, high : (m,) float, line to neutral [V]; equal where the plate or the plug says it and
        the plug fits no higher mains than the plate
    category : (m,) float, overvoltage category
    assumed : by key of engine.assumptions, (m,) bool
    """

    low: np.ndarray
    high: np.ndarray
    category: np.ndarray
    assumed: dict[str, np.ndarray]

    @property
    def transient(self) -> tuple[np.ndarray, np.ndarray]:
        """Mains transient at both ends. [V peak]"""
        return (mains_transient(self.low, self.category),
                mains_transient(self.high, self.category))


def supply(rated_voltage_high, plug, overvoltage_category) -> Supply:
    """From the upper end of the rated range [V], the plug's code and the marked category.

    An unread plate: what the plug says of its country, else 150 V and 250 V. A plug that fits
    higher mains than the plate will be pushed into them: they are the demanding end.
    """
    rated = np.asarray(rated_voltage_high, float)
    plug = np.broadcast_to(np.asarray(plug, dtype=str), rated.shape)
    by_plug = plug_mains(plug)
    unread, above = np.isnan(rated), fits_more(by_plug, rated)
    known = np.where(unread, by_plug, rated)
    unknown = np.isnan(known)
    category = np.broadcast_to(np.asarray(overvoltage_category, float), rated.shape)
    return Supply(
        np.where(unknown, LOW_MAINS, known),
        np.select([unknown, above], [HIGH_MAINS, by_plug], known),
        np.where(np.isnan(category), CATEGORY, category),
        {"mains_voltage": unknown, "plug_mains": unread & ~unknown,
         "plug_above_plate": above, "plug_fits_plate": may_fit_more(by_plug, rated),
         "overvoltage_category": np.isnan(category)})


def plug_mains(plug) -> np.ndarray:
    """(m,) mains voltage of the countries that a plug is made for; NaN where it tells none. [V]"""
    return np.select([plug == code for code in PLUG_MAINS], list(PLUG_MAINS.values()), np.nan)


def fits_more(by_plug, rated) -> np.ndarray:
    """(m,) bool: the plug fits mains of more than 1.1 times the rated voltage. A plate that says
    220 V bears 230 V."""
    return by_plug > HIGHEST * rated


def may_fit_more(by_plug, rated) -> np.ndarray:
    """(m,) bool: nobody named the plug, and there are plugs for higher mains than the plate's."""
    return np.isnan(by_plug) & fits_more(max(PLUG_MAINS.values()), rated)


@dataclass(frozen=True, slots=True)
class Distances:
    """Required distances at both ends, (m,) float [m], and what was assumed.

    pollution : (m,) float at the lenient and at the demanding end
    """

    clearance: tuple[np.ndarray, np.ndarray]
    creepage: tuple[np.ndarray, np.ndarray]
    pollution: tuple[np.ndarray, np.ndarray]
    peak: tuple[np.ndarray, np.ndarray]
    rms: tuple[np.ndarray, np.ndarray]
    transient: tuple[np.ndarray, np.ndarray]
    assumed: dict[str, np.ndarray]


def required_distances(mains: Supply, *, reinforced, transformer, working_voltage_rms,
                       working_voltage_peak, working_voltage_frequency, rated_altitude,
                       pollution_degree=np.nan, contaminated=np.nan,
                       material_group="") -> Distances:
    """Clearance and creepage at the lenient and at the demanding end.

    A measured working voltage is the largest of all pairs of nodes: in the transformer it counts
    at both ends; at static points the usual one is the lenient end, and the demanding end is the
    larger of the two, for nobody said at which pair it was measured. The mains themselves lie
    across the barrier: a reading below them counts as them at the demanding end.

    A path that is judged as of pollution degree 1, as if it were sealed, is looked at as of
    degree 2 too.

    reinforced, transformer : (m,) bool; everything else (m,) float or text, NaN or "" unknown
    """
    shape = mains.low.shape
    given, dirt, altitude, frequency, rms_found, peak_found = (
        np.broadcast_to(np.asarray(part, float), shape) for part in
        (pollution_degree, contaminated, rated_altitude, working_voltage_frequency,
         working_voltage_rms, working_voltage_peak))
    reinforced, transformer = (np.broadcast_to(np.asarray(part, bool), shape)
                               for part in (reinforced, transformer))
    group = np.broadcast_to(np.asarray(material_group, dtype=str), shape)
    clean = np.where(np.isnan(given), POLLUTION, given)
    sealed = given < POLLUTION
    dirty = np.where(dirt == 1.0, np.maximum(clean, DIRTY), np.maximum(clean, POLLUTION))
    height = np.where(np.isnan(altitude), ALTITUDE, altitude)
    ends = []
    for line, demanding, pollution in ((mains.low, False, clean), (mains.high, True, dirty)):
        usual_rms, usual_peak = assumed_working_voltage(line, transformer, demanding)
        rms = _working(usual_rms, rms_found, transformer, demanding, line)
        peak = _working(usual_peak, peak_found, transformer, demanding, sine_peak(line))
        # How fast the peak is was not always noted: then it counts by both tables.
        slow = np.where(frequency > FAST, usual_peak, peak)
        fast = np.where(frequency <= FAST, np.nan, peak)
        air = required_clearance(line, slow, fast, reinforced, pollution, mains.category, height)
        surface = required_creepage(rms, group, reinforced, pollution, air)
        ends.append((air, surface, pollution, peak, rms,
                     mains_transient(line, mains.category)))
    names = ("clearance", "creepage", "pollution", "peak", "rms", "transient")
    pairs = dict(zip(names, zip(*ends, strict=True), strict=True))
    return Distances(**pairs, assumed=mains.assumed | {
        "working_voltage": np.isnan(rms_found), "working_peak": np.isnan(peak_found),
        "pollution_degree": np.isnan(given), "contamination": dirt == 1.0, "unsealed": sealed,
        "altitude": np.isnan(altitude), "material_group": group == "",
    })


def _working(usual, found, transformer, demanding, mains):
    """The voltage that counts at one end, from the usual one and the measured one."""
    static = np.maximum(usual, found) if demanding else usual
    wound = np.maximum(mains, found) if demanding else found
    return np.where(np.isnan(found), usual, np.where(transformer, wound, static))
