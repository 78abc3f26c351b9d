"""Flyback stages as makers design them: by the formulas of a design guide, from parts that exist.

A design needs a target, and gets the margin that its maker leaves; what the stage carries in the
end comes from stepping its cycle (`flyback`). V_OR, duty, B, J and fill: usual ranges, from memory.
"""
from dataclasses import dataclass

import numpy as np

from . import cores
from .catalogue import SENSE, SWITCH_VOLTAGE, WIRE, at_least, nearest
from .flyback import VACUUM, Core, Drive

DIODE, SYNCHRONOUS = 0.5, 0.08      # V, of the output rectifier
BOBBIN = 0.5                        # of the core's window that the bobbin leaves
PRIMARY_SHARE = 0.45                # of that for the primary


@dataclass(frozen=True, slots=True)
class Converter:
    """(n,) each; SI."""

    core: Core                      # as it is, hot
    drive: Drive                    # as it is, at the highest output voltage
    core_index: np.ndarray          # int, place in cores.NAMES
    secondary_turns: np.ndarray
    auxiliary_turns: np.ndarray
    bias_regulator: np.ndarray      # bool
    supply_low: np.ndarray          # V, window of the controller
    supply_high: np.ndarray         # V
    primary_wire: np.ndarray        # m
    primary_strands: np.ndarray
    secondary_wire: np.ndarray      # m
    secondary_strands: np.ndarray
    threshold: np.ndarray           # V, of the current sense, as the data sheet says
    sense: np.ndarray               # Ω; NaN: inside the chip
    switch_rating: np.ndarray       # V
    switch_resistance: np.ndarray   # Ω, at 25 °C
    fringe: np.ndarray              # mechanical gap over the gap that the field sees
    leakage: np.ndarray             # of the power, lost in the clamp
    oscillates: np.ndarray          # bool: one bipolar transistor, no oscillator of its own

    @property
    def core_volume(self):
        return cores.VOLUME[self.core_index]

    @property
    def ratio(self):
        return self.core.turns / self.secondary_turns

    @property
    def lowest_bus(self):
        """V at which the longest on-time no longer balances the off-time."""
        duty = self.drive.maximum_duty
        return self.drive.reflected * (1 - duty) / duty + 1.0


def draw_converter(made, aim, rng, habits):
    """The stage, and the lowest bus voltage [V] that it was planned with.

    made : columns drawn before; aim : target times margin by part [W].
    """
    n = made["target"].size
    plan = _plan(made, rng)
    limit = plan["peak"] * aim["limit"] / made["target"]
    threshold, sense, actual = _current_limit(made, limit, plan, rng)
    wires = _wires(made, plan, rng, habits)
    index, turns = _core(made, plan, actual, wires, rng, habits)
    secondary = np.maximum(np.round(turns / plan["ratio"]), 1)
    turns = np.maximum(np.round(secondary * plan["ratio"]), 4)
    core, fringe = _gapped(index, turns, plan["inductance"], rng)
    reflected = turns / secondary * (made["top_voltage"] + plan["rectifier"])
    resistance = 0.012 * made["target"] / plan["rms"] ** 2 * np.exp(rng.normal(0, 0.4, n))
    copper = _resistance(turns, wires["primary_wire"], wires["primary_strands"], index)
    drive = Drive(
        peak=actual, delay=rng.uniform(1e-7, 3e-7, n), period=1 / plan["frequency"],
        maximum_duty=plan["duty"], reflected=reflected,
        resistance=copper * 1.3 + resistance * 1.5 + np.nan_to_num(sense))
    stage = Converter(
        core=core, drive=drive, core_index=index, secondary_turns=secondary,
        **_supply(made, secondary, plan, rng), **wires, threshold=threshold, sense=sense,
        switch_rating=_switch_rating(made, reflected, rng), switch_resistance=resistance,
        fringe=fringe, leakage=np.where(made["dense"], 0.4, 1.0)
        * rng.uniform(0.01, 0.03, n) * (made["target"] / 10) ** -0.4, oscillates=plan["oscillates"])
    return stage, plan["valley"]


def copper_resistances(stage):
    """Ω of primary and secondary at 20 °C, d.c."""
    index = stage.core_index
    return (_resistance(stage.core.turns, stage.primary_wire, stage.primary_strands, index),
            _resistance(stage.secondary_turns, stage.secondary_wire, stage.secondary_strands,
                        index))


def _plan(made, rng):
    """Turns ratio, duty, frequency, inductance and currents at the design's lowest bus."""
    n, target, wide = made["target"].size, made["target"], made["wide"]
    oscillates = (target < 8) & ~made["switchable"] & np.isnan(made["published_wide"])
    oscillates &= rng.random(n) < 0.6
    nominal = np.where(target > 28, rng.choice([65e3, 100e3, 130e3], n, p=[0.35, 0.35, 0.3]),
                       rng.choice([60e3, 65e3, 67e3, 85e3, 100e3, 132e3], n,
                                  p=[0.15, 0.4, 0.15, 0.1, 0.1, 0.1]))
    nominal = np.where(made["dense"], rng.uniform(90e3, 180e3, n), nominal)
    frequency = np.where(oscillates, rng.uniform(30e3, 90e3, n), nominal * rng.normal(1, 0.03, n))
    reflected = np.where(wide, rng.triangular(55, 85, 135, n), rng.triangular(70, 110, 145, n))
    valley = np.where(wide, rng.triangular(62, 75, 95, n), rng.triangular(130, 185, 240, n))
    valley = np.where(made["corrector"], 330.0, valley)
    small = oscillates | (target < 15)      # most regulate from the primary, with an empty core
    duty = np.where(small, rng.uniform(0.45, 0.7, n), rng.choice([0.5, 0.65, 0.7, 0.75, 0.8], n))
    duty = np.maximum(duty, reflected / (reflected + 0.92 * valley))
    rectifier = np.where(made["synchronous"], SYNCHRONOUS, DIODE)
    ripple = np.where(target < 12, rng.uniform(0.75, 1.0, n), rng.uniform(0.45, 1.0, n))
    ripple = np.where(oscillates, 1.0, ripple)
    on = reflected / (reflected + valley)
    power = target / made["bus_efficiency_guess"]
    peak = power / (valley * on * (1 - ripple / 2))
    shape = np.sqrt(ripple**2 / 3 - ripple + 1)
    return {"oscillates": oscillates, "frequency": frequency, "valley": valley, "duty": duty,
            "rectifier": rectifier, "ratio": reflected / (made["top_voltage"] + rectifier),
            "inductance": valley * on / (ripple * peak * frequency), "peak": peak, "on": on,
            "rms": peak * shape * np.sqrt(on), "rms_out": peak * shape * np.sqrt(1 - on)}


def _current_limit(made, limit, plan, rng):
    """Threshold of the data sheet, resistor, and the peak current that results."""
    n = limit.size
    threshold = np.where(plan["oscillates"], 0.65, rng.choice([0.5, 0.55, 0.7, 0.8, 0.9, 1.0], n))
    inside = ~np.isnan(made["published_wide"])
    sense = np.where(inside, np.nan, nearest(SENSE, threshold / limit))
    true = threshold * np.where(plan["oscillates"], rng.normal(1, 0.08, n), rng.normal(1, 0.03, n))
    # a chip with its own limit: by its class of power, which is one of a series too
    published = np.where(made["wide"], made["published_wide"], made["published_high"])
    chip = plan["peak"] * published / made["target"] * rng.uniform(0.95, 1.3, n)
    return np.where(inside, np.nan, threshold), sense, np.where(inside, chip, true / sense)


def _wires(made, plan, rng, habits):
    """Primary of one strand, finer in parallel where it would be thick; secondary of some."""
    n = plan["peak"].size
    density = 1e6 * habits.density * rng.triangular(4.5, 7.5, 11, n)
    density = density * np.exp(rng.normal(0, 0.3, n) * (habits.spread - 1))
    area = plan["rms"] / density
    strands = np.ceil(area / (np.pi / 4 * 0.4e-3**2))
    wire = nearest(WIRE, np.sqrt(4 * area / np.pi / strands))
    # the secondary for the largest current, which flows at the lowest voltage
    at_top = made["target"] / made["top_voltage"]
    most = np.where(made["switchable"], made["current_5v"] / at_top, 1.0)
    out = most * plan["rms_out"] * plan["ratio"] / density * np.exp(rng.normal(0, 0.2, n))
    thick = rng.choice([0.35e-3, 0.45e-3, 0.55e-3, 0.7e-3], n)
    parallel = np.ceil(out / (np.pi / 4 * thick**2))
    return {"primary_wire": wire, "primary_strands": strands,
            "secondary_wire": nearest(WIRE, np.sqrt(4 * out / np.pi / parallel)),
            "secondary_strands": parallel}


def _core(made, plan, peak, wires, rng, habits):
    """The smallest set of the maker's families whose window takes the turns that B asks for."""
    n = peak.size
    # at the current limit; 0.30 T is the usual ceiling, and some go to where the core gives up
    density = np.clip(habits.flux * rng.normal(0.30, 0.03 * habits.spread, n), 0.2, 0.42)
    fill = rng.uniform(0.24, 0.38, n) * np.where(made["target"] > 28, 1.2, 1.0)
    turns = plan["inductance"][:, None] * peak[:, None] / (density[:, None] * cores.AREA)
    copper = wires["primary_strands"] * np.pi / 4 * wires["primary_wire"] ** 2
    needed = turns * (copper / fill)[:, None]
    fits = needed <= BOBBIN * PRIMARY_SHARE * cores.WINDOW
    kind = np.where(rng.random(n) < np.where(made["target"] < 20, 0.8, 0.45), 0,
                    np.where(made["target"] < 20, rng.integers(1, 3, n), rng.integers(1, 4, n)))
    mine = kind[:, None] == cores.FAMILY
    smallest = np.where(fits & mine, cores.VOLUME, np.inf).argmin(axis=1)
    largest = np.where(mine, cores.VOLUME, 0.0).argmax(axis=1)
    index = np.where((fits & mine).any(axis=1), smallest, largest)
    return index, np.ceil(turns[np.arange(n), index])


def _gapped(index, turns, inductance, rng):
    """The core as it is at work: ground to the inductance, within 5 %, and hot."""
    n = turns.size
    area, length = cores.AREA[index], cores.LENGTH[index]
    permeability = rng.uniform(1800, 2600, n)
    gap = VACUUM * area * turns**2 / inductance - length / permeability
    gap = np.maximum(gap * rng.normal(1, 0.05, n), 0.02e-3)
    saturation = rng.normal(0.385, 0.018, n)
    core = Core(turns, area * rng.normal(1, 0.015, n), length, gap, saturation, permeability)
    return core, 1 + rng.uniform(0, 0.35, n) * np.minimum(1, gap / 0.3e-3)


def _resistance(turns, wire, strands, index):
    """Ω of a winding at 20 °C, d.c."""
    return 1.7241e-8 * turns * cores.TURN[index] / (strands * np.pi / 4 * wire**2)


def _supply(made, secondary, plan, rng):
    """Volts a turn follow the output: where the highest would break the chip, a regulator."""
    n, switchable, drop = secondary.size, made["switchable"], plan["rectifier"]
    low = rng.choice([7.0, 8.0, 9.0, 10.0], n)
    high = rng.choice([24.0, 26.0, 28.0, 30.0, 40.0], n, p=[0.2, 0.25, 0.3, 0.15, 0.1])
    least = np.where(switchable, 5.0, made["top_voltage"])
    wanted = np.where(switchable, low * rng.uniform(1.05, 1.25, n), rng.uniform(11, 18, n))
    turns = np.maximum(np.ceil(secondary * wanted / (least + drop)), 1)
    highest = turns / secondary * (made["top_voltage"] + drop)
    regulator = (highest > 0.95 * high) | switchable & (rng.random(n) < 0.3)
    return {"auxiliary_turns": turns, "bias_regulator": regulator,
            "supply_low": low, "supply_high": high}


def _switch_rating(made, reflected, rng):
    """Bus at the highest mains, reflected voltage and spike within 0.85 to 1 of the rating."""
    stress = np.sqrt(2) * 264 + reflected + rng.uniform(40, 110, reflected.size)
    return at_least(SWITCH_VOLTAGE, stress / rng.uniform(0.88, 1.0, reflected.size))
