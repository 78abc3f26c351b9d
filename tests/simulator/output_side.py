"""Rectifier and capacitors of the output, as makers choose them for the current they aim at."""
from dataclasses import dataclass

import numpy as np

from .catalogue import (
    CANS,
    CAPACITOR_RATING,
    POLYMER_CANS,
    RECTIFIER,
    RECTIFIER_VOLTAGE,
    at_least,
)
from .converter import DIODE, SYNCHRONOUS

POLYMER, PLAIN, LOW_IMPEDANCE = 0, 1, 2
CAPACITOR_RISE = 6.0        # K at the rated ripple current


@dataclass(frozen=True, slots=True)
class OutputSide:
    """(n,) each; SI."""

    current: np.ndarray                 # A, the largest that is aimed at
    current_limit: np.ndarray           # A, where the output folds back
    synchronous: np.ndarray             # bool
    rectifier_rating: np.ndarray        # A; NaN: synchronous
    rectifier_voltage: np.ndarray       # V
    rectifier_to_air: np.ndarray        # K/W
    on_resistance: np.ndarray           # Ω at 25 °C; NaN: a diode
    capacitor_kind: np.ndarray          # int
    capacitor_diameter: np.ndarray      # m
    capacitor_length: np.ndarray        # m
    capacitor_count: np.ndarray
    ripple_rating: np.ndarray           # A, all together
    capacitor_rating: np.ndarray        # V

    @property
    def drop(self):
        """V of a diode, and of a synchronous rectifier's dead time."""
        return np.where(self.synchronous, SYNCHRONOUS / 2, DIODE)


def draw_output_side(made, converter, aim, rng):
    n, target, synchronous = made["target"].size, made["target"], made["synchronous"]
    most = np.where(made["switchable"], made["current_5v"], target / made["top_voltage"])
    asked = most * aim["rectifier"] / target
    # one or two times the current: the margin above that, and heat, decide in the end
    rating = at_least(RECTIFIER, asked * rng.uniform(1.0, 1.5, n))
    reverse = made["top_voltage"] + np.sqrt(2) * 264 / converter.ratio
    resistance = 0.004 * target**2 / most**2 / aim["rectifier"] * np.exp(rng.normal(0, 0.35, n))
    return OutputSide(
        current=most, synchronous=synchronous,
        current_limit=most * rng.uniform(1.05, 1.1, n) * aim["output current"] / target,
        rectifier_rating=np.where(synchronous, np.nan, rating),
        rectifier_voltage=at_least(RECTIFIER_VOLTAGE, reverse / rng.uniform(0.75, 0.98, n)),
        rectifier_to_air=np.where(synchronous, 40 * (target / 15) ** -0.5, 90 / rating)
        * np.exp(rng.normal(0, 0.2, n)),
        on_resistance=np.where(synchronous, np.clip(resistance, 3e-3, 0.03), np.nan),
        **_capacitors(made, most * aim["output capacitor"] / target, rng),
        capacitor_rating=_voltage_rating(made["top_voltage"], rng))


def _capacitors(made, current, rng):
    """The smallest can of the chosen series whose rating, times the number, carries the ripple."""
    n = current.size
    polymer = rng.random(n) < np.where(made["target"] < 14, 0.1, 0.65)
    kind = np.where(polymer, POLYMER, np.where(rng.random(n) < 0.45, PLAIN, LOW_IMPEDANCE))
    # plain series are run above their rating, for nobody looks; common practice, no source
    over = np.where(kind == PLAIN, rng.uniform(1.0, 2.0, n), rng.uniform(0.8, 1.5, n))
    needed = 1.35 * current / over
    factor = np.where(kind == PLAIN, 0.55, 1.0) * np.exp(rng.normal(0, 0.12, n))
    count = np.where(needed > 3.0, 2, 1)
    count = np.where((kind != POLYMER) & (needed > 1.2), rng.choice([2, 2, 3], n), count)
    diameter, length, rated = np.where(
        polymer[:, None], _cans(POLYMER_CANS, needed / count / factor),
        _cans(CANS, needed / count / factor)).T
    return {"capacitor_kind": kind, "capacitor_diameter": diameter * 1e-3,
            "capacitor_length": length * 1e-3, "capacitor_count": count.astype(float),
            "ripple_rating": rated * count * factor}


def _cans(cans, needed):
    order = cans[:, 2].argsort()
    return cans[order][np.minimum(np.searchsorted(cans[order, 2], needed), len(cans) - 1)]


def _voltage_rating(top, rng):
    margin = np.exp(abs(rng.normal(0, 0.35, top.size)))
    return at_least(CAPACITOR_RATING, top / 0.9 * margin)
