"""One trial: draw chargers, show the engine what a contributor would see, keep what is true."""
from dataclasses import dataclass, fields

import numpy as np

from teardowns.engine import pipeline, rulebook

from .chargers import draw_chargers
from .claims import draw_plates
from .habits import USUAL
from .observations import draw_observations
from .scores import score
from .tables import claim_table, evidence_table

MOST_POWER = (0, 1)     # places in tables.CLAIMS: the claims of most power are judged together


@dataclass(frozen=True, slots=True)
class Trial:
    group: np.ndarray           # (m,) place in tables.CLAIMS
    met: np.ndarray             # (m,) bool, what is true of each claim
    overstated: np.ndarray      # (m,) claimed power over what the unit reaches
    ordinary: np.ndarray        # (m,) bool: mass, plate, bulk, output capacitor and controller seen
    p: np.ndarray               # (m,) what the engine says of it
    weights: np.ndarray         # (m, lines) decibans; NaN: line not used
    capability: np.ndarray      # (n,) W at the low end, true; NaN: the claimed voltage is not there
    low: np.ndarray             # (n,) W, ends of the engine's 90 % interval; NaN: none given
    high: np.ndarray

    def of(self, groups):
        """(m,) bool: the claims of some groups."""
        return np.isin(self.group, groups)

    def score(self, groups=MOST_POWER):
        mine = self.of(groups)
        return score(self.p[mine], self.met[mine], self.overstated[mine], self.ordinary[mine])


def draw(n, seed, regime, habits=USUAL):
    """Chargers, their plates, and the engine's two tables."""
    chargers, plates, observed = draw_seen(n, seed, regime, habits)
    return chargers, plates, evidence_table(observed), *claim_table(chargers, plates)


def draw_seen(n, seed, regime, habits=USUAL):
    """Chargers, their plates, and what was observed of them."""
    rng = np.random.default_rng(seed)
    chargers = draw_chargers(n, rng, habits)
    plates = draw_plates(chargers, rng)
    return chargers, plates, draw_observations(chargers, plates, rng, regime, habits)


def run(n, seed, regime, habits=USUAL, book=None):
    """book : the rulebook in use where it is not the whole one"""
    chargers, plates, observed = draw_seen(n, seed, regime, habits)
    claims, group = claim_table(chargers, plates)
    judged = pipeline.assess(evidence_table(observed), claims, book or rulebook.load()).judged
    several = plates.several
    met = np.concatenate([plates.power_met, plates.power_met & plates.voltage_met,
                          plates.power_5v_met[several]])
    _, low, high = judged.capability[:, 0].T        # at the low end: median, 5 %, 95 %
    there = np.where(plates.voltage_met, chargers.capability(chargers.mains_low), np.nan)
    overstated = np.where(group == 2, np.nan, (plates.power / plates.truth)[claims.row])
    return Trial(group, met, overstated, ordinary(observed)[claims.row], judged.plausibility,
                 judged.weights, there, low, high)


def ordinary(observed):
    """(n,) bool: whether the clues are there that any opened unit gives."""
    seen = {clue.code: ~np.isnan(clue.value) for clue in observed}
    none = np.zeros(seen["mass_total"].shape, bool)

    def any_of(*codes):
        return np.logical_or.reduce([seen.get(code, none) for code in codes])

    return (seen["mass_total"] & seen["rated_voltage_low"]
            & any_of("bulk_capacitance", "bulk_capacitance_marked")
            & any_of("output_capacitor_rating")
            & any_of("controller_power_wide", "current_sense_resistance"))


def join(trials):
    """Several trials as one."""
    return Trial(*(np.concatenate([getattr(trial, field.name) for trial in trials])
                   for field in fields(Trial)))
