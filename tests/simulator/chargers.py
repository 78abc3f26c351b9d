"""Chargers of known capability: parts chosen for a target, and what the circuit makes of them.

A maker picks every part for the power aimed at, times the margin left for that part, from what can
be bought. What the unit then carries is looked for in the stepped circuit and the heat balance:
the largest load at which the bus holds, nothing in the mains lead gives up, the output does not
fold back, and no part passes its temperature.
"""
from dataclasses import dataclass, replace

import numpy as np

from . import balance
from .case import UNUSUAL, Case, contents, draw_case, draw_mass
from .catalogue import POWER_HIGH, POWER_WIDE, step_above
from .converter import Converter, copper_resistances, draw_converter
from .mains_side import MainsSide, draw_lead, draw_mains_side
from .output_side import OutputSide, draw_output_side

PARTS = ("bulk", "chip", "limit", "rectifier", "output capacitor", "bridge", "fuse", "case",
         "output current", "hidden")
TOUCHED = (62.0, 82.0)      # °C, hottest spot of the case that makers allow; common practice
# By power [W], the shares of units that promise several voltages, and of those that have them
# where the watts are invented.
BRACKETS = (8.0, 15.0, 30.0)
PROMISED, THERE = np.array([0.0, 0.3, 0.6, 0.9]), np.array([0.0, 0.5, 0.85, 0.97])
HALVINGS = 18
FITTINGS = 5


@dataclass(frozen=True, slots=True)
class Chargers:
    """(n,) each; SI."""

    honest: np.ndarray              # bool: the maker claims what the unit reaches
    overstated: np.ndarray          # ln of what is claimed over what the unit reaches
    target: np.ndarray              # W, what the maker aims at
    wide: np.ndarray                # bool: 100–240 V, else 220–240 V
    bus_efficiency_guess: np.ndarray    # the maker's, bus to output
    mains_side: MainsSide
    converter: Converter
    output_side: OutputSide
    case: Case
    abilities: balance.Abilities
    limits: balance.Limits
    primary_resistance: np.ndarray      # Ω, 20 °C
    secondary_resistance: np.ndarray    # Ω, 20 °C
    winding_to_air: np.ndarray      # K/W
    switch_to_air: np.ndarray       # K/W
    mass: np.ndarray                # kg, without ballast
    published_wide: np.ndarray      # W; NaN: no published table
    published_high: np.ndarray      # W
    chip_slip: np.ndarray           # true over published
    hidden: np.ndarray              # W at the low end, the weakest part without a clue
    hidden_slope: np.ndarray        # exponent of the mains voltage
    promised: np.ndarray            # bool: the plate gives 5 V and a higher voltage
    switchable: np.ndarray          # bool: it has them
    top_voltage: np.ndarray         # V, highest output voltage it can give
    fixed_barrel: np.ndarray        # bool: one voltage on a d.c. plug
    current_5v: np.ndarray          # A, what a switchable unit gives at 5 V

    @property
    def mains_low(self):
        return self.mains_side.low

    @property
    def mains_high(self):
        return self.mains_side.high

    def supply(self, mains):
        mains = np.broadcast_to(np.asarray(mains, float), self.target.shape)
        return balance.meet(self.mains_side, self.abilities, mains)

    def warm(self, power, mains):
        """The steady state at a load [W] and a mains voltage."""
        return balance.warm(self, power, self.supply(mains))

    def capability(self, mains, warm=True):
        """(n,) continuous output power [W] at a mains voltage; for seconds only: not `warm`."""
        supply = self.supply(mains)
        low, high = np.zeros(self.target.shape), self._ceiling(supply.mains)
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            holds = self._holds(middle, supply, warm)
            low, high = np.where(holds, middle, low), np.where(holds, high, middle)
        return low

    def everywhere(self):
        """(n,) W at any rated mains voltage: a claim covers the whole range."""
        return np.minimum(self.capability(self.mains_low), self.capability(self.mains_high))

    def _ceiling(self, mains):
        """What no circuit is stepped for: published table, output current, parts without a clue."""
        table = self.chip_slip * np.exp(_between(
            mains, np.log(self.published_wide), np.log(self.published_high)))
        hidden = self.hidden * (mains / self.mains_low) ** self.hidden_slope
        top = np.where(self.switchable, 1.0, self.output_side.current_limit) * self.top_voltage
        return np.fmin(np.fmin(table, hidden), np.where(self.switchable, np.inf, top))

    def _holds(self, power, supply, warm):
        state = balance.warm(self, power, supply)
        stress = self.mains_side.stress(supply.mains, state.bus_power, supply.bus)
        held = state.bus_power <= supply.power
        return held & (stress <= 1) & (state.share(self.limits) <= 1) if warm else held

    def capability_at(self, mains, output_voltage):
        """The same at one output voltage: at 5 V the port's own current limit counts too."""
        at_5v = self.switchable & (output_voltage == 5)
        return np.fmin(self.capability(mains), np.where(at_5v, 5 * self.current_5v, np.nan))


def _between(mains, wide, high):
    """From the wide-range figure (115 V and below) to the 230 V figure."""
    part = np.clip((mains - 115) / (230 - 115), 0, 1)
    return wide + part * (high - wide)


def draw_chargers(n, rng, habits):
    made = _intent(n, rng, habits)
    target = made["target"]
    aim = dict(zip(PARTS, target * _margins(n, rng, habits), strict=True))
    lead = draw_lead(target, made["wide"], rng)
    made |= {"corrector": lead["corrector"]} | _output(made, rng)
    made |= _chip(made, aim["chip"], rng, habits)
    converter, valley = draw_converter(made, aim, rng, habits)
    mains_side = draw_mains_side(lead, made, valley, aim, rng, habits)
    output_side = draw_output_side(made, converter, aim, rng)
    primary, secondary = copper_resistances(converter)
    volume = converter.core_volume
    unit = Chargers(
        **{name: made[name] for name in (
            "honest", "overstated", "target", "wide", "bus_efficiency_guess", "published_wide",
            "published_high", "chip_slip", "promised", "switchable", "top_voltage", "fixed_barrel",
            "current_5v")},
        mains_side=mains_side, converter=converter, output_side=output_side,
        case=draw_case(target, made["dense"], rng), abilities=balance.step_cycles(converter),
        limits=balance.draw_limits(n, rng),
        primary_resistance=primary, secondary_resistance=secondary,
        winding_to_air=30 / np.sqrt(volume * 1e6) * np.exp(rng.normal(0, 0.2, n)),
        switch_to_air=55 * (target / 5) ** -0.6 * np.exp(rng.normal(0, 0.2, n)),
        mass=np.zeros(n), hidden=aim["hidden"], hidden_slope=rng.uniform(0, 0.3, n))
    return _boxed(unit, made["dense"], np.sqrt(aim["case"] * target), rng, habits)


def _intent(n, rng, habits):
    honest = rng.random(n) < 0.5
    overstated = np.where(honest, rng.uniform(-0.35, 0.05, n), rng.uniform(*habits.overstated, n))
    size = np.exp(rng.normal(np.log(22), 0.8, n)).clip(4, 130)
    target = (size * np.exp(-overstated) if habits.claim_first else size).clip(1.5, 110)
    return {"honest": honest, "overstated": overstated, "target": target,
            "wide": rng.random(n) < 0.75,
            "bus_efficiency_guess": draw_efficiency(target, rng) / rng.uniform(0.96, 0.985, n),
            "synchronous": rng.random(n) < np.clip((target - 8) / 8, 0.02, 0.98),
            # small for its power: fast switch, heat spread, hot to the touch
            "dense": (target > 18) & (rng.random(n) < 0.5)}


def _margins(n, rng, habits):
    """By how much each part outdoes the aim; something is the weakest."""
    own = habits.margin * np.exp(habits.makers * rng.normal(0, 1, n))
    margin = np.exp(abs(rng.normal(0, 1, (len(PARTS), n))) * own)
    margin[rng.integers(0, len(PARTS) - 1, n), np.arange(n)] = 1
    return margin


def draw_efficiency(power, rng):
    """What makers reckon with, by power and rectifier: between 10 and 15 W half of them have gone
    synchronous."""
    power = np.where(rng.random(power.size) < 0.5, power, power * 1.5)
    bracket = np.searchsorted([3.0, 8.0, 15.0, 30.0], power)
    low, mode, high = np.array([(0.55, 0.68, 0.78), (0.65, 0.75, 0.82), (0.72, 0.79, 0.86),
                                (0.80, 0.86, 0.91), (0.85, 0.90, 0.94)])[bracket].T
    return rng.triangular(low, mode, high)


def _chip(made, aim, rng, habits):
    """A part with a published table; larger units mostly have a controller and its own switch."""
    n = aim.size
    table = rng.random(n) < np.where(made["target"] < 30, 0.6, 0.2)
    index = np.where(made["wide"], step_above(POWER_WIDE, aim), step_above(POWER_HIGH, aim))
    slip = np.exp(rng.normal(0, 0.12 * habits.spread, n))
    return {"published_wide": np.where(table, POWER_WIDE[index], np.nan),
            "published_high": np.where(table, POWER_HIGH[index], np.nan), "chip_slip": slip}


def _output(made, rng):
    """What kind of output is printed goes by the watts that are printed, whoever prints them.

    So it says no more of honesty than they do. Whether a promised voltage is there goes, with
    those who invent watts, by how much there is inside.
    """
    target, n = made["target"], made["target"].size
    printed = target * np.exp(made["overstated"])
    promised = rng.random(n) < PROMISED[np.searchsorted(BRACKETS, printed)]
    there = np.where(made["honest"], 0.9, THERE[np.searchsorted(BRACKETS, target)])
    switchable = promised & (rng.random(n) < there)
    # one port of 5 V ends where its plug does
    barrel = ~promised & ((rng.random(n) < np.where(printed < 15, 0.15, 0.6)) | (printed > 40))
    pick, size = rng.integers(0, 3, n), np.searchsorted([22.0, 45.0], printed)
    plugs = np.array([[9, 12, 12], [12, 15, 19], [19, 20, 24]], float)
    fixed = np.where(barrel, plugs[size, pick], 5.0)
    top = np.array([[9, 9, 12], [12, 15, 20], [20, 20, 20]], float)[size, pick]
    return {"promised": promised, "switchable": switchable, "fixed_barrel": barrel,
            "top_voltage": np.where(switchable, top, fixed),
            "current_5v": np.minimum(rng.choice([2.0, 2.4, 3.0], n), target / 5)}


def _boxed(unit, dense, aim, rng, habits):
    """A box in which the parts fit and, at the power aimed at, nothing and no hand is burnt."""
    allowed = rng.uniform(*TOUCHED, unit.target.size) + np.where(dense, 10.0, 0.0)
    supply = unit.supply(unit.mains_low)
    volume, parts = contents(unit.mains_side, unit.converter, unit.output_side)
    for _ in range(FITTINGS):
        state = balance.warm(unit, aim, supply)
        touched = (state.hot_spot - balance.AMBIENT) / (allowed - balance.AMBIENT)
        inside = (state.air - balance.AMBIENT) / (unit.limits.air - 15 - balance.AMBIENT)
        unit = _grown(unit, np.clip(np.fmax(touched, inside), 0.5, 2.0) ** 1.1)
    packed = (1.6 * volume / unit.case.volume) ** (2 / 3)
    n = unit.target.size
    stock = np.where(rng.random(n) < UNUSUAL, rng.uniform(1.2, 2.2, n), 1.0)
    unit = _grown(unit, np.maximum(packed, 1.0) * stock)
    return replace(unit, mass=draw_mass(unit.target, unit.case, parts, rng, habits))


def _grown(unit, factor):
    return replace(unit, case=replace(unit.case, area=unit.case.area * factor))
