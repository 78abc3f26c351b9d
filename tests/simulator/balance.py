"""What a converter can draw from its bus, and how warm a unit becomes at a load.

Both rest on stepped circuits (`circuit`, `flyback`); the temperatures on an iterated balance of
lumps. Coefficients of loss: usual values, from memory; a unit's efficiency is what comes out.
"""
from dataclasses import dataclass

import numpy as np

from . import cores
from .flyback import largest_cycle
from .heat import AMBIENT, rise_of
from .mains_side import BOOSTED
from .output_side import CAPACITOR_RISE

# Bus voltages at which the cycle is stepped, over the lowest at which the longest pulse balances:
# there the converter falls from continuous to empty-core operation, so both sides of it are kept.
BUS = np.array([0.4, 0.7, 0.9999, 1.0001, 1.06, 1.15, 1.3, 1.6, 2.2, 3.5, 6.0])
BLOCK = 2000
ROUNDS = 6
CROSSING = 26


@dataclass(frozen=True, slots=True)
class Abilities:
    """(len(BUS), n) each, at BUS times the lowest bus voltage."""

    lowest_bus: np.ndarray      # (n,) V
    power: np.ndarray           # W from the bus
    primary_form: np.ndarray    # rms of the primary current over power by bus voltage
    secondary_form: np.ndarray  # rms over mean
    swing: np.ndarray           # T, half of it

    def at(self, bus, name):
        """(n,) of a table at a bus voltage."""
        place = np.interp(bus / self.lowest_bus, BUS, np.arange(len(BUS)))
        k = np.minimum(place.astype(int), len(BUS) - 2)
        table, column = getattr(self, name), np.arange(bus.size)
        return table[k, column] * (k + 1 - place) + table[k + 1, column] * (place - k)


def step_cycles(converter):
    """Some chargers at a time, so that the steps stay in the processor's cache."""
    lowest = converter.lowest_bus
    rows = np.arange(lowest.size)
    parts = [_stepped(converter.core.take(some), converter.drive.take(some), lowest[some])
             for some in np.array_split(rows, max(1, lowest.size // BLOCK))]
    return Abilities(lowest, *np.concatenate(parts, axis=2))


def _stepped(core, drive, lowest):
    """(4, len(BUS), n) the tables of `Abilities`, in their order."""
    found = [(bus, largest_cycle(bus, core, drive)) for bus in BUS[:, None] * lowest]
    return np.stack([
        (one.power, one.primary_rms * bus / one.power, one.secondary_form,
         (one.peak - one.lowest) / (2 * core.turns * core.area)) for bus, one in found], axis=1)


@dataclass(frozen=True, slots=True)
class Supply:
    """The bus at one mains voltage; (n,) each."""

    mains: np.ndarray           # V
    bus: np.ndarray             # V, mean
    power: np.ndarray           # W, the most that the bus and the converter agree on


def meet(mains_side, abilities, mains):
    """Where the valley that a power leaves is just what the converter needs for that power."""
    crest = mains_side.crest(mains)
    low, high = 0.1 * crest, 0.985 * crest
    for _ in range(CROSSING):
        middle = (low + high) / 2
        enough = abilities.at(middle, "power") >= mains_side.power(mains, middle)
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    held = np.minimum(mains_side.power(mains, high), abilities.at(high, "power"))
    boosted = np.full(crest.shape, BOOSTED)
    power = np.where(mains_side.corrector, abilities.at(boosted * 0.93, "power"), held)
    return Supply(mains, np.where(mains_side.corrector, boosted, (crest + high) / 2), power)


@dataclass(frozen=True, slots=True)
class Warmth:
    """A unit in the steady state at a load; (n,) each, °C and W."""

    bus_power: np.ndarray
    input_power: np.ndarray
    case: np.ndarray            # mean of the surface
    hot_spot: np.ndarray
    air: np.ndarray
    winding: np.ndarray
    switch: np.ndarray
    rectifier: np.ndarray
    capacitor: np.ndarray

    def share(self, limits):
        """How far the warmest part has come from the air outside to its limit."""
        return np.max([(getattr(self, name) - AMBIENT) / (getattr(limits, name) - AMBIENT)
                       for name in Limits.__slots__], axis=0)


@dataclass(frozen=True, slots=True)
class Limits:
    """°C at which a part gives up or switches off; (n,) each."""

    air: np.ndarray
    winding: np.ndarray
    switch: np.ndarray
    rectifier: np.ndarray
    capacitor: np.ndarray


def draw_limits(n, rng):
    return Limits(air=rng.uniform(105, 120, n), winding=rng.uniform(115, 140, n),
                  switch=rng.uniform(120, 150, n), rectifier=rng.uniform(120, 145, n),
                  capacitor=rng.uniform(110, 125, n))


def warm(unit, power, supply):
    """Losses make temperatures, and temperatures make losses: iterated until they agree."""
    lumps = _Lumps(unit, power, supply)
    winding = switch = air = np.full(power.shape, 70.0)
    for _ in range(ROUNDS):
        heats = lumps.losses(winding, switch)
        total = sum(heats.values())
        case = AMBIENT + rise_of(total, unit.case.area, unit.case.free)
        air = case + total / (unit.case.inside * unit.case.area)
        winding = np.minimum(air + heats["transformer"] * unit.winding_to_air, 400.0)
        switch = np.minimum(air + heats["switch"] * unit.switch_to_air, 400.0)
    return Warmth(
        bus_power=power + total - heats["lead"], input_power=power + total, case=case,
        hot_spot=AMBIENT + (case - AMBIENT) * unit.case.hot_spot, air=air, winding=winding,
        switch=switch, rectifier=air + heats["rectifier"] * unit.output_side.rectifier_to_air,
        capacitor=air + CAPACITOR_RISE * lumps.ripple_part**2)


class _Lumps:
    """Losses of a unit at one load, as functions of the two temperatures that feed back."""

    def __init__(self, unit, power, supply):
        self.unit, self.supply, self.power = unit, supply, power
        self.bus_power = power / unit.bus_efficiency_guess
        able, output = unit.abilities, unit.output_side
        self.primary = able.at(supply.bus, "primary_form") * self.bus_power / supply.bus
        self.mean = power / unit.top_voltage
        form = able.at(supply.bus, "secondary_form")
        self.secondary = form * self.mean
        self.ripple_part = self.mean * np.sqrt(np.maximum(form**2 - 1, 0)) / output.ripple_rating
        part = np.minimum(self.bus_power / able.at(supply.bus, "power"), 1.0)
        self.swing = able.at(supply.bus, "swing") * np.sqrt(part)

    def losses(self, winding, switch):
        unit, supply, converter = self.unit, self.supply, self.unit.converter
        output, frequency = unit.output_side, 1 / self.unit.converter.drive.period
        current = unit.mains_side.current(supply.mains, self.bus_power)
        lead = current**2 * unit.mains_side.resistance + np.where(
            unit.mains_side.corrector, 0.02 * self.bus_power + 1.5 * current,
            1.5 * self.bus_power / supply.bus)
        hot = 1 + 0.00393 * (winding - 20)
        copper = hot * (1.3 * unit.primary_resistance * self.primary**2
                        + 1.5 * unit.secondary_resistance * self.secondary**2)
        iron = 4e5 * cores.VOLUME[converter.core_index] * (frequency / 1e5) ** 1.4 * (
            self.swing / 0.2) ** 2.5
        # what the switch burns as it turns on; fast ones wait for the valley of the ringing
        reflected = converter.drive.reflected * np.where(frequency > 9e4, -1.0, 0.5)
        stored = 0.5 * 50e-12 * np.sqrt(unit.target / 10) * frequency * np.maximum(
            supply.bus + reflected, 0.0) ** 2
        conducted = converter.switch_resistance * (1 + 0.006 * (switch - 25)) * self.primary**2
        through = np.nan_to_num(output.on_resistance) * 1.4 * self.secondary**2
        return {
            "lead": lead, "transformer": copper + iron, "switch": conducted + stored,
            "rectifier": output.drop * self.mean + through,
            "clamp": converter.leakage * self.bus_power + np.nan_to_num(
                converter.sense) * self.primary**2,
            "rest": 0.04 + 0.002 * unit.target + 0.012 * self.mean**2
            + 0.08 * np.minimum(self.ripple_part, 4.0) ** 2}
