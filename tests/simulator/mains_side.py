"""Mains lead, rectifier and bulk capacitor, as makers choose them."""
from dataclasses import dataclass

import numpy as np

from .catalogue import BRIDGE, CAPACITANCE, FUSE, FUSIBLE, FUSIBLE_POWER, at_least, nearest
from .circuit import bus_power, drawn_current, needed_capacitance

FREQUENCY = 50.0
BOOSTED = 390.0             # V behind a corrector


@dataclass(frozen=True, slots=True)
class MainsSide:
    """(n,) each; SI."""

    low: np.ndarray                 # V, rated
    high: np.ndarray                # V, rated
    corrector: np.ndarray           # bool: boost stage, the bulk capacitor limits nothing
    full_wave: np.ndarray           # bool
    resistance: np.ndarray          # Ω, in the mains lead, all together
    bulk_nominal: np.ndarray        # F, as marked
    bulk: np.ndarray                # F, as it is
    bridge_rating: np.ndarray       # A, average, of the whole rectifier
    bridge_holds: np.ndarray        # times the rating
    fuse_rating: np.ndarray         # A; NaN: none but the fusible resistor
    fuse_holds: np.ndarray          # times the rating, for hours
    fusible: np.ndarray             # Ω; NaN: none
    fusible_rating: np.ndarray      # W
    fusible_holds: np.ndarray       # times the rating, for hours

    def power(self, mains, minimum):
        """W that keep the bus above `minimum` V."""
        return bus_power(self.bulk, mains, FREQUENCY, self.full_wave, minimum, self.resistance)

    def current(self, mains, power):
        """A from the mains, rms, at a bus power in W."""
        plain = drawn_current(power, self.bulk, mains, FREQUENCY, self.full_wave, self.resistance)
        return np.where(self.corrector, power / (0.96 * mains), plain)

    def crest(self, mains):
        return np.sqrt(2) * mains - np.where(self.full_wave, 1.4, 0.7)

    def stress(self, mains, power, mean_bus):
        """The worst part of the lead: what flows over what it holds."""
        current = self.current(mains, power)
        average = np.where(self.corrector, 0.9 * current, power / mean_bus)
        fusible = current**2 * self.fusible / (self.fusible_rating * self.fusible_holds)
        return np.fmax(np.fmax(np.sqrt(fusible), current / (self.fuse_rating * self.fuse_holds)),
                       average / (self.bridge_rating * self.bridge_holds))


def draw_lead(target, wide, rng):
    """Columns that the rest of the design builds on: rectifier, corrector, resistance."""
    n = target.size
    corrector = (target > 75) & (rng.random(n) < 0.8)
    fused = rng.random(n) < np.where(target < 15, 0.35, 1.0)
    fusible = np.where(fused, np.nan, np.where(
        target < 6, rng.choice(FUSIBLE[2:], n), rng.choice(FUSIBLE[:4], n)))
    resistance = np.where(fused, rng.uniform(0.4, 2.5, n), fusible + rng.uniform(0.2, 0.8, n))
    return {"low": np.where(wide, 100.0, 220.0), "high": np.full(n, 240.0), "corrector": corrector,
            "full_wave": rng.random(n) > np.where(target < 8, 0.25, 0.0),
            "fusible": fusible, "resistance": resistance}


def draw_mains_side(lead, made, valley, aim, rng, habits):
    """valley : (n,) lowest bus voltage that the maker plans with [V]"""
    n, target = made["target"].size, made["target"]
    guess = made["bus_efficiency_guess"]
    bulk = _bulk(lead, made, valley, aim["bulk"] / guess, rng, habits)
    power = aim["bridge"] / guess
    average = power / np.where(lead["corrector"], 0.95 * lead["low"], 1.15 * lead["low"])
    average = average * np.where(lead["full_wave"], 1.0, 1.3)
    current = drawn_current(target / guess, bulk["bulk"], lead["low"], FREQUENCY,
                            lead["full_wave"], lead["resistance"])
    current = np.where(lead["corrector"], target / guess / (0.96 * lead["low"]), current)
    current = current * aim["fuse"] / target
    fusible_rating = at_least(FUSIBLE_POWER, current**2 * lead["fusible"] * rng.uniform(1, 1.6, n))
    return MainsSide(
        **lead, **bulk, bridge_rating=at_least(BRIDGE, average * rng.uniform(1.0, 1.6, n)),
        bridge_holds=np.exp(rng.normal(0.15, 0.12, n)),
        # inrush, not the current, chooses most fuses: twice the current and more
        fuse_rating=np.where(np.isnan(lead["fusible"]),
                             at_least(FUSE, current * rng.uniform(1.5, 3.5, n)), np.nan),
        fuse_holds=rng.uniform(1.0, 1.35, n), fusible_holds=rng.uniform(1.0, 1.8, n),
        fusible_rating=np.where(np.isnan(lead["fusible"]), np.nan, fusible_rating))


def _bulk(lead, made, valley, aim, rng, habits):
    mains, frequency = lead["low"], FREQUENCY
    if habits.corner:
        mains, frequency = 0.9 * mains, 47.0
    # where the lowest bus voltage lies too near the crest of the corner no capacitor would do
    minimum = np.minimum(valley, 0.85 * np.sqrt(2) * mains)
    needed = needed_capacitance(aim, mains, frequency, lead["full_wave"], minimum,
                                lead["resistance"])
    # behind a boost stage: 0.6 to 1 µF a watt at 400 V; common practice, no source
    boosted = made["target"] * rng.uniform(0.6e-6, 1e-6, aim.size)
    nominal = nearest(CAPACITANCE, np.where(lead["corrector"], boosted, needed))
    return {"bulk_nominal": nominal,
            "bulk": nominal * rng.triangular(0.80, 0.95, 1.15, aim.size)}
