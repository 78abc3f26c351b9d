"""Chargers of known capability: what each part carries, and the weakest part decides.

Priors: efficiency, share of the rectifier, lowest bus voltage and tolerance of electrolytics as
handed down for unmeasured units (no source; common practice). Everything else is this file's.
"""
from dataclasses import dataclass, fields

import numpy as np

from .catalogue import CAPACITANCE, POWER_HIGH, POWER_WIDE, nearest, step_above
from .circuit import bus_power, needed_capacitance

PARTS = 6               # bulk capacitor, controller, and four that leave no clue of their own
FREQUENCY = 50.0


@dataclass(frozen=True, slots=True)
class Chargers:
    """(n,) each; SI."""

    honest: np.ndarray              # bool: the maker claims what the unit reaches
    overstated: np.ndarray          # ln of what is claimed over what the unit reaches
    target: np.ndarray              # W, what the maker aims at
    wide: np.ndarray                # bool: 100–240 V, else 220–240 V
    mains_low: np.ndarray           # V
    mains_high: np.ndarray          # V
    efficiency: np.ndarray          # mains to output
    bus_efficiency: np.ndarray      # bus to output
    corrector: np.ndarray           # bool: boost stage, the bulk capacitor limits nothing
    full_wave: np.ndarray           # bool
    resistance: np.ndarray          # Ω, in the mains lead
    minimum_bus: np.ndarray         # V
    bulk_nominal: np.ndarray        # F, as marked
    bulk: np.ndarray                # F, as it is
    published_wide: np.ndarray      # W; NaN: no published table
    published_high: np.ndarray      # W
    controller_slip: np.ndarray     # true over published
    hidden: np.ndarray              # W at the low end, the weakest part without a clue
    hidden_slope: np.ndarray        # exponent of the mains voltage
    switchable: np.ndarray          # bool
    top_voltage: np.ndarray         # V, highest output voltage it can give
    fixed_barrel: np.ndarray        # bool: one voltage on a d.c. plug
    current_5v: np.ndarray          # A, what a switchable unit gives at 5 V

    def capability(self, mains):
        """(n,) continuous output power [W] at a mains voltage: that of the weakest part."""
        bulk = self.bus_efficiency * bus_power(
            self.bulk, mains, FREQUENCY, self.full_wave, self.minimum_bus, self.resistance)
        controller = self.controller_slip * np.exp(_between(
            mains, np.log(self.published_wide), np.log(self.published_high)))
        hidden = self.hidden * (mains / self.mains_low) ** self.hidden_slope
        return np.fmin(np.fmin(np.where(self.corrector, np.nan, bulk), controller), hidden)

    def capability_at(self, mains, output_voltage):
        """The same at one output voltage: at 5 V the port's own current limit counts too."""
        at_5v = self.switchable & (output_voltage == 5)
        return np.fmin(self.capability(mains), np.where(at_5v, 5 * self.current_5v, np.nan))


def _between(mains, wide, high):
    """From the wide-range figure (115 V and below) to the 230 V figure."""
    part = np.clip((mains - 115) / (230 - 115), 0, 1)
    return wide + part * (high - wide)


def draw_chargers(n, rng, habits):
    honest = rng.random(n) < 0.5
    overstated = np.where(honest, rng.uniform(-0.35, 0.05, n), rng.uniform(0.05, 2.3, n))
    size = np.exp(rng.normal(np.log(22), 0.8, n)).clip(4, 130)
    target = (size * np.exp(-overstated) if habits.claim_first else size).clip(1.5, 110)
    margin = np.exp(abs(rng.normal(0, habits.margin, (PARTS, n))))
    margin[rng.integers(0, PARTS, n), np.arange(n)] = 1         # something is the weakest
    columns = {"honest": honest, "overstated": overstated, "target": target} | _mains(target, rng)
    columns |= _output(target, rng)
    columns |= _bulk(columns, target * margin[0], rng, habits)
    columns |= _controller(columns, target * margin[1], rng, habits)
    columns |= {"hidden": target * margin[2:].min(axis=0), "hidden_slope": rng.uniform(0, 0.3, n)}
    return Chargers(**{f.name: columns[f.name] for f in fields(Chargers)})


def _mains(target, rng):
    n = target.size
    wide = rng.random(n) < 0.75
    efficiency = draw_efficiency(target, rng)
    return {
        "wide": wide, "mains_low": np.where(wide, 100.0, 220.0), "mains_high": np.full(n, 240.0),
        "efficiency": efficiency, "bus_efficiency": efficiency / rng.uniform(0.96, 0.985, n),
        "corrector": (target > 75) & (rng.random(n) < 0.8),
        "full_wave": rng.random(n) > np.where(target < 8, 0.25, 0.0),
        "resistance": rng.uniform(1, 10, n) * np.minimum(1, 10 / target),
        "minimum_bus": np.where(
            wide, rng.triangular(55, 70, 90, n), rng.triangular(120, 180, 240, n)),
    }


def draw_efficiency(power, rng):
    """By power and by rectifier: between 10 and 15 W half of the makers have gone synchronous."""
    power = np.where(rng.random(power.size) < 0.5, power, power * 1.5)
    bracket = np.searchsorted([3.0, 8.0, 15.0, 30.0], power)
    low, mode, high = np.array([(0.55, 0.68, 0.78), (0.65, 0.75, 0.82), (0.72, 0.79, 0.86),
                                (0.80, 0.86, 0.91), (0.85, 0.90, 0.94)])[bracket].T
    return rng.triangular(low, mode, high)


def _bulk(made, aim, rng, habits):
    mains, frequency = made["mains_low"], FREQUENCY
    if habits.corner:
        mains, frequency = 0.9 * mains, 47.0
    # where the lowest bus voltage lies too near the crest of the corner no capacitor would do
    minimum = np.minimum(made["minimum_bus"], 0.85 * np.sqrt(2) * mains)
    needed = needed_capacitance(aim / made["bus_efficiency"], mains, frequency,
                                made["full_wave"], minimum, made["resistance"])
    # behind a boost stage: 0.6 to 1 µF a watt at 400 V; common practice, no source
    boosted = made["target"] * rng.uniform(0.6e-6, 1e-6, aim.size)
    nominal = nearest(CAPACITANCE, np.where(made["corrector"], boosted, needed))
    return {"bulk_nominal": nominal,
            "bulk": nominal * rng.triangular(0.80, 0.95, 1.15, aim.size)}


def _controller(made, aim, rng, habits):
    """A part with a published table; larger units mostly have a controller and its own switch."""
    n = aim.size
    table = rng.random(n) < np.where(made["target"] < 30, 0.6, 0.2)
    index = np.where(made["wide"], step_above(POWER_WIDE, aim), step_above(POWER_HIGH, aim))
    slip = np.exp(rng.normal(0, 0.12 * habits.spread, n))
    return {"published_wide": np.where(table, POWER_WIDE[index], np.nan),
            "published_high": np.where(table, POWER_HIGH[index], np.nan),
            "controller_slip": slip}


def _output(target, rng):
    """Fixed or switchable, and the highest voltage: the larger, the more often switchable."""
    n = target.size
    chance = np.array([0.0, 0.3, 0.6, 0.9])[np.searchsorted([8.0, 15.0, 30.0], target)]
    switchable = rng.random(n) < chance
    barrel = ~switchable & (rng.random(n) < np.where(target < 15, 0.15, 0.6))
    pick = rng.integers(0, 3, n)
    by_size = np.array([[9, 9, 12], [12, 15, 20], [20, 20, 20]], float)
    fixed = np.where(barrel, np.array([9.0, 12.0, 20.0])[pick], 5.0)
    top = by_size[np.searchsorted([22.0, 45.0], target), pick]
    return {"switchable": switchable, "fixed_barrel": barrel,
            "top_voltage": np.where(switchable, top, fixed),
            "current_5v": np.minimum(rng.choice([2.0, 2.4, 3.0], n), target / 5)}
