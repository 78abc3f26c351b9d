"""Which insulation a barrier needs, and how far its circuits have to be apart at both ends of what
is assumed."""
from dataclasses import dataclass

import numpy as np

from .clearance import required_clearance
from .creepage import required_creepage
from .mains_voltages import HIGH_MAINS, LOW_MAINS, assumed_working_voltage, mains_transient
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
POLLUTION, DIRTY, CATEGORY, ALTITUDE = 2.0, 3.0, 2.0, 2000.0
FAST = 30e3                     # Hz: above it the peak counts as fast
PLUG_MAINS = {"europlug": 230.0, "schuko": 230.0, "bs1363": 230.0, "as3112": 230.0,
              "nema1": 120.0, "nema5": 120.0}


@dataclass(frozen=True, slots=True)
class Supply:
    """The mains at both ends of what is assumed.

    low, high : (m,) float, line to neutral [V]; equal where the plate or the plug says it
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

    An unread plate: what the plug says of its country, else 150 V and 250 V.
    """
    rated = np.asarray(rated_voltage_high, float)
    plug = np.broadcast_to(np.asarray(plug, dtype=str), rated.shape)
    by_plug = np.full(rated.shape, np.nan)
    for code, volts in PLUG_MAINS.items():
        by_plug = np.where(plug == code, volts, by_plug)
    unread = np.isnan(rated)
    known = np.where(unread, by_plug, rated)
    unknown = np.isnan(known)
    category = np.broadcast_to(np.asarray(overvoltage_category, float), rated.shape)
    return Supply(
        np.where(unknown, LOW_MAINS, known), np.where(unknown, HIGH_MAINS, known),
        np.where(np.isnan(category), CATEGORY, category),
        {"mains_voltage": unknown, "plug_mains": unread & ~unknown,
         "overvoltage_category": np.isnan(category)})


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
    larger of the two, for nobody said at which pair it was measured.

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
    dirty = np.where(dirt == 1.0, np.maximum(clean, DIRTY), clean)
    height = np.where(np.isnan(altitude), ALTITUDE, altitude)
    ends = []
    for line, demanding, pollution in ((mains.low, False, clean), (mains.high, True, dirty)):
        usual_rms, usual_peak = assumed_working_voltage(line, transformer, demanding)
        rms = _working(usual_rms, rms_found, transformer, demanding)
        peak = _working(usual_peak, peak_found, transformer, demanding)
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
        "pollution_degree": np.isnan(given), "contamination": dirt == 1.0,
        "altitude": np.isnan(altitude), "material_group": group == "",
    })


def _working(usual, found, transformer, demanding):
    """The voltage that counts at one end, from the usual one and the measured one."""
    static = np.maximum(usual, found) if demanding else usual
    return np.where(np.isnan(found), usual, np.where(transformer, found, static))
