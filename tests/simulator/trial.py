"""One trial: draw chargers, show the engine what a contributor would see, keep what is true."""
from dataclasses import dataclass, fields

import numpy as np

from teardowns.engine import pipeline, rulebook

from .chargers import draw_chargers
from .claims import draw_plates
from .habits import USUAL
from .observations import draw_observations
from .tables import claim_table, evidence_table


@dataclass(frozen=True, slots=True)
class Trial:
    group: np.ndarray           # (m,) place in tables.CLAIMS
    met: np.ndarray             # (m,) bool, what is true of each claim
    p: np.ndarray               # (m,) what the engine says of it
    capability: np.ndarray      # (n,) W at the low end, true
    low: np.ndarray             # (n,) W, ends of the engine's 90 % interval; NaN: none given
    high: np.ndarray


def draw(n, seed, regime, habits=USUAL):
    """Chargers, their plates, and the engine's two tables."""
    rng = np.random.default_rng(seed)
    chargers = draw_chargers(n, rng, habits)
    plates = draw_plates(chargers, rng)
    observed = draw_observations(chargers, plates, rng, regime, habits)
    return chargers, plates, evidence_table(observed), *claim_table(chargers, plates)


def run(n, seed, regime, habits=USUAL):
    chargers, plates, evidence, claims, group = draw(n, seed, regime, habits)
    judged = pipeline.assess(evidence, claims, rulebook.load()).judged
    several = plates.several
    met = np.concatenate([plates.power_met, plates.power_met & plates.voltage_met,
                          plates.power_5v_met[several]])
    _, low, high = judged.capability[:, 0].T        # at the low end: median, 5 %, 95 %
    return Trial(group, met, judged.plausibility, chargers.capability(chargers.mains_low),
                 low, high)


def join(trials):
    """Several trials as one."""
    return Trial(*(np.concatenate([getattr(trial, field.name) for trial in trials])
                   for field in fields(Trial)))
