"""Invented load sweeps whose truth is known: a port, a load, and the meters between them."""
from dataclasses import dataclass, field

import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Cable, Conditions
from teardowns.logs.layout import LogColumn

KINDS = ("hiccup", "latch_off", "foldback", "constant_current")
ENDINGS = ("stops", "unloads", "unplugged", "load_trips")


@dataclass(frozen=True)
class Port:
    nominal: float                # V
    trip: float                   # A: what is asked beyond it is not given
    kind: str                     # of KINDS, beyond the trip
    resistance: float = 0.05      # Ω
    above: float = 1.02           # of the nominal voltage, without load


@dataclass(frozen=True)
class Bench:
    """What lies between the port and the file."""

    noise: float = 0.0            # of the largest reading, 1 σ
    gain_v: float = 1.0
    gain_i: float = 1.0
    digit_v: float = 1e-3         # V
    digit_i: float = 1e-3         # A
    every: int = 1                # rows between two readings of a slow meter
    settle: float = 0.0           # s, first order, of both readings
    dropped: float = 0.0          # share of rows that are missing
    blank: float = 0.0            # share of cells
    uneven: float = 0.0           # of the step of time
    cable: Cable | None = None
    cable_resistance: float = 0.0       # Ω
    is_set_logged: bool = True
    is_mains_logged: bool = False


@dataclass(frozen=True)
class Truth:
    held: float | None            # W held for the window; None: no load was
    last_good: float | None       # A: largest that was set and given before the trip
    trip: float | None            # A; None: the log never came to it
    kind: str
    spacing: float                # A between two loads about the trip
    resistance: float             # Ω


@dataclass(frozen=True)
class Sweep:
    channels: Channels
    conditions: Conditions
    truth: Truth
    notes: dict = field(default_factory=dict)


def output_at(port, asked, time, is_beyond):
    """(voltage, current) at the port; a latch and a hiccup begin where the trip is passed."""
    full = port.above * port.nominal
    voltage, current = full - port.resistance * asked, asked.copy()
    excess = np.fmax(asked / port.trip - 1, 0.0)
    if not is_beyond.any():
        return voltage, current
    if port.kind in ("constant_current", "foldback"):
        share = np.clip(0.85 - 3.0 * excess, 0.25, 1.0)     # of the voltage, beyond the trip
        given = port.trip * (1.0 if port.kind == "constant_current" else 0.2 + 0.7 * share)
        return (np.where(is_beyond, share * full, voltage),
                np.where(is_beyond, given, current))
    off = np.zeros(len(time), bool)
    first = int(np.argmax(is_beyond))
    if port.kind == "latch_off":
        off[first:] = True
        return np.where(off, 0.0, voltage), np.where(off, 0.0, current)
    # Tries again: 1 of 3 parts of a period of 1.7 s the output is up at four fifths.
    phase = (time - time[first]) % 1.7
    is_try = is_beyond & (phase > 1.1)
    voltage = np.where(is_beyond, np.where(is_try, 0.8 * full, 0.02), voltage)
    return voltage, np.where(is_beyond, np.where(is_try, port.trip, 0.0), current)


def read_by(bench, rng, time, voltage, current):
    """The readings that a file holds of what was at the port."""
    voltage = bench.gain_v * (voltage - bench.cable_resistance * current)
    current = bench.gain_i * current
    step = float(np.median(np.diff(time)))
    readings = []
    for values, digit in ((voltage, bench.digit_v), (current, bench.digit_i)):
        noise = bench.noise * float(values.max())
        values = _lagging(values, bench.settle / step) + noise * rng.standard_normal(len(values))
        values = values[np.arange(len(values)) // bench.every * bench.every]
        readings.append(np.round(np.fmax(values, 0.0) / digit) * digit)
    return readings


def _lagging(values, constant):
    """First-order lag of a time constant in rows."""
    if constant <= 0:
        return values
    reach = int(np.ceil(6 * constant)) + 1
    kernel = np.exp(-np.arange(reach) / constant)
    padded = np.concatenate([np.full(reach - 1, values[0]), values])
    return np.convolve(padded, kernel / kernel.sum(), "valid")


def logged(port, asked, time, bench, rng, held_at=None, ending="stops", conditions=None):
    """The sweep as channels, with its truth. asked : (n,) A; held_at : A held for long, if any"""
    is_beyond = asked > port.trip
    voltage, current = output_at(port, asked, time, is_beyond)
    rows = int(rng.uniform(4, 200)) if ending == "unplugged" else 12
    voltage, current, asked = _ended(ending, voltage, current, asked, rows)
    read_v, read_i = read_by(bench, rng, time, voltage, current)
    keep = rng.random(len(time)) >= bench.dropped
    keep[:3] = True
    for values in (read_v, read_i):
        values[rng.random(len(values)) < bench.blank] = np.nan
    columns = [("output_voltage", read_v, bench.digit_v), ("output_current", read_i,
                                                           bench.digit_i)]
    if bench.is_set_logged:
        columns.append(("set_current", asked, 1e-3))
    if bench.is_mains_logged:
        mains = np.full(len(time), 230.0)
        mains[len(time) - rows:] *= ending != "unplugged"
        columns.append(("input_voltage", mains, 0.1))
    channels = Channels(time[keep] - time[0], tuple(
        Channel(LogColumn(at, role, role), values[keep], digit)
        for at, (role, values, digit) in enumerate(columns, 1)))
    good = np.unique(asked[~is_beyond])
    passed = bool(is_beyond.any())
    beyond = float(asked[is_beyond][0]) if passed else np.nan
    held = None if held_at is None or held_at > port.trip else held_at * (
        port.above * port.nominal - port.resistance * held_at)
    truth = Truth(held, float(good[-1]) if passed else None, port.trip if passed else None,
                  port.kind if passed else "", beyond - float(good[-1]) if passed else 0.0,
                  port.resistance)
    stated = conditions or Conditions(set_voltage=port.nominal, cable=bench.cable)
    return Sweep(channels, stated, truth, {"port": port, "bench": bench, "ending": ending})


def _ended(ending, voltage, current, asked, rows):
    """The last rows: nothing, the load off, the plug pulled, or the load's own protection."""
    last = slice(len(voltage) - rows, None)
    voltage, current, asked = voltage.copy(), current.copy(), asked.copy()
    if ending == "unloads":
        asked[last], current[last], voltage[last] = 0.0, 0.0, voltage[0]
    elif ending == "unplugged":
        current[last], voltage[last] = 0.0, 0.0
    elif ending == "load_trips":
        current[last], voltage[last] = 0.0, voltage[0]
    return voltage, current, asked


def stepped(rng, loads, dwell, step, held_at=None, held=0.0, uneven=0.0):
    """(asked, time): each load for `dwell` seconds, one of them for `held`; rows every `step`."""
    times = np.where(np.isclose(loads, -1.0 if held_at is None else held_at), held, dwell)
    ends = np.cumsum(times)
    count = int(ends[-1] / step)
    time = np.cumsum(step * (1 + uneven * rng.uniform(-1, 1, count)))
    time *= ends[-1] / time[-1]
    return loads[np.fmin(np.searchsorted(ends, time, "left"), len(loads) - 1)], time


CABLE = Cable(1.0, 0.25e-6, 0.04)
CABLE_RESISTANCE = 0.04 + 2 * 1.0 * 1.7241e-8 / 0.25e-6      # Ω, copper at 20 °C


def random_sweep(rng):
    """A sweep of any kind, by meters of any make, with or without coming to the limit."""
    nominal = float(rng.choice([5.0, 9.0, 12.0, 20.0]))
    trip = float(rng.uniform(1.0, 4.0))
    resistance = float(rng.uniform(0.005, 0.1) * 0.25 * nominal / trip / 2)
    port = Port(nominal, trip, str(rng.choice(KINDS)), resistance, float(rng.uniform(1.0, 1.04)))
    has_cable = bool(rng.random() < 0.3)
    bench = Bench(
        noise=float(rng.choice([0.0, 5e-4, 2e-3])), gain_v=1 + rng.uniform(-3e-3, 3e-3),
        gain_i=1 + rng.uniform(-3e-3, 3e-3), digit_v=float(rng.choice([1e-3, 1e-2])),
        digit_i=float(rng.choice([1e-3, 1e-2])), every=int(rng.choice([1, 1, 2, 3])),
        settle=float(rng.choice([0.0, 0.2])), dropped=float(rng.choice([0.0, 0.02])),
        blank=float(rng.choice([0.0, 0.01])), is_set_logged=bool(rng.random() < 0.5),
        is_mains_logged=bool(rng.random() < 0.5),
        cable=CABLE if has_cable else None,
        cable_resistance=CABLE_RESISTANCE if has_cable else 0.0)
    reaches = bool(rng.random() < 0.6)
    top = trip * (rng.uniform(1.25, 1.5) if reaches else rng.uniform(0.5, 0.98))
    ending = str(rng.choice(["stops", "unloads"] if reaches else ENDINGS))
    if rng.random() < 0.25:
        return _ramp(rng, port, bench, top, ending)
    size = trip * rng.uniform(0.012, 0.02) if rng.random() < 0.5 else trip * 0.06
    loads = np.round(np.arange(0.0, top, size), 3)
    if len(loads) < 4:
        loads = np.linspace(0, top, 4).round(3)
    good = loads[(loads <= trip) & (loads > 0.2 * trip)]
    held_at = float(rng.choice(good)) if len(good) and rng.random() < 0.7 else None
    step = float(rng.choice([0.25, 0.5]))
    dwell = float(rng.uniform(8.0, 25.0))
    asked, time = stepped(rng, loads, dwell, step, held_at, float(rng.uniform(620, 700)),
                          float(rng.choice([0.0, 0.3])))
    if rng.random() < 0.1:                                   # a run that ends early
        cut = int(rng.uniform(0.3, 0.9) * len(time))
        if held_at is not None and 570 < np.count_nonzero(asked[:cut] == held_at) * step < 620:
            cut -= int(60 / step)                            # clearly shorter than the window
        is_held = held_at is not None and np.count_nonzero(asked[:cut] == held_at) * step > 601
        asked, time, held_at = asked[:cut], time[:cut], held_at if is_held else None
        beyond = np.count_nonzero(asked > trip)
        if 0 < beyond * step < 20:                           # too little to show anything
            asked, time = asked[asked <= trip], time[asked <= trip]
        ending = "stops"
    return logged(port, asked, time, bench, rng, held_at, ending)


def at_several_voltages(rng, ports, bench, size=0.1, most=3.0, dwell=15.0):
    """One log in which a port is set to one voltage after the other; each swept past its trip."""
    parts = []
    for port in ports:
        loads = np.concatenate([[0.0], np.round(np.arange(0.0, most, size), 3), [0.0]])
        asked, time = stepped(rng, loads, dwell, 0.5)
        parts.append(logged(port, asked, time, bench, rng, conditions=Conditions()).channels)
    values = [np.concatenate([part.channels[at].values for part in parts])
              for at in range(len(parts[0].channels))]
    return Channels(np.arange(len(values[0])) * 0.5, tuple(
        Channel(one.column, column, one.step)
        for one, column in zip(parts[0].channels, values, strict=True)))


def _ramp(rng, port, bench, top, ending):
    time = np.arange(0.0, rng.uniform(150, 400), 0.25)
    asked = np.fmax(np.linspace(-0.03 * top, top, len(time)), 0.0)
    return logged(port, asked, time, bench, rng, None, ending)
