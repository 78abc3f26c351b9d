"""Invented captures of a flyback's switch, with what is true of each.

Each period is built forward in time from what the circuit does: the switch conducts, the leakage
inductance rings, the secondary holds its reflected voltage while its current falls, and what is
left rings freely from there (natural response of a damped LC, starting at rest).
"""
from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import LogColumn


@dataclass(frozen=True)
class Flyback:
    frequency: float = 65.3e3         # Hz
    duty: float = 0.32
    bus: float = 310.0                # V
    reflected: float = 75.0           # V, at the end of the demagnetisation
    demagnetisation: float | None = 5.1e-6    # s; None: the secondary conducts to the end
    ring: float = 480e3               # Hz
    decay: float = 9e-6               # s to 1/e
    leakage: float = 90.0             # V
    leakage_ring: float = 6e6         # Hz
    leakage_decay: float = 0.15e-6    # s
    sag: float = 0.0                  # of the reflected voltage, higher at turn-off
    on_drop: float = 2.0              # V across the switch at the end of its on-time
    edge: float = 30e-9               # s
    dither: float = 0.0               # largest relative swing of the frequency
    dither_rate: float = 2500.0       # Hz
    burst: tuple[int, int] | None = None      # pulses that are given, periods that are left out
    truth: str = "discontinuous"


@dataclass(frozen=True)
class Scope:
    rate: float = 50e6                # samples/s
    count: int = 50_000
    noise: float = 2.0                # V rms
    factor: float = 1.0               # what is shown over what is there
    offset: float = 0.0               # V
    bits: int = 0                     # 0: every digit is kept
    top: float | None = None          # V at which the screen ends
    seed: int = 1


def valley_switched(flyback, valley):
    """The same converter turned on in its n-th valley; the first is the boundary."""
    rest = (valley - 0.5) / flyback.ring
    on_time = flyback.duty / flyback.frequency
    period = on_time + flyback.demagnetisation + rest
    return replace(flyback, frequency=1 / period, duty=on_time / period,
                   truth="boundary" if valley == 1 else "discontinuous")


def balanced(flyback):
    """The demagnetisation that brings the flux back to where it was."""
    mean = flyback.reflected * (1 + flyback.sag / 2)
    seconds = (flyback.bus - flyback.on_drop / 2) * flyback.duty / flyback.frequency / mean
    return replace(flyback, demagnetisation=seconds)


def capture(flyback, scope=None, role="switch_voltage", invert=False):
    """The channels that an oscilloscope would write."""
    scope = scope or Scope()
    random = np.random.default_rng(scope.seed)
    time = np.arange(scope.count) / scope.rate
    values = _node(flyback, time + random.random() / flyback.frequency)
    if role == "winding_voltage":     # output winding, 1 : 15, its dot at the other end
        values = (values - flyback.bus) / 15.0
    values = values + random.normal(0.0, scope.noise, scope.count)
    values = scope.factor * values + scope.offset
    if scope.top is not None:
        values = np.minimum(values, scope.top)
    if invert:
        values = -values
    digit = 0.0
    if scope.bits:
        digit = float(np.ptp(values)) / (0.8 * 2**scope.bits)
        values = np.round(values / digit) * digit
    return Channels(time, (Channel(LogColumn(1, "CH1", role), values, digit),))


def _node(one, time):
    starts = _turn_ons(one, time[-1])
    which = np.maximum(np.searchsorted(starts, time, "right") - 1, 0)
    since = time - starts[which]
    on_time = one.duty / one.frequency
    off = _off_time(one, since - on_time)
    on = one.on_drop * np.clip(since / on_time, 0, 1)
    # Linear edges, the middle of each at its true moment.
    rises = np.clip((since - on_time) / one.edge + 0.5, 0, 1)
    ends = np.append(starts[1:], np.inf)[which] - time
    falls = np.clip(ends / one.edge + 0.5, 0, 1)
    down = np.clip(since / one.edge + 0.5, 0, 1)
    shown = np.where(rises > 0, on + (off - on) * rises, on)
    before = _off_time(one, (starts - np.append(0.0, starts[:-1]))[which] - on_time)
    shown = np.where(down < 1, before + (shown - before) * down, shown)
    return np.where(falls < 1, shown * falls + on * (1 - falls), shown)


def _turn_ons(one, last):
    starts, at, number = [-1 / one.frequency], 0.0, 0
    while at <= last + 1 / one.frequency:
        starts.append(at)
        swing = one.dither * np.sin(2 * np.pi * one.dither_rate * at)
        at += 1 / (one.frequency * (1 + swing))
        number += 1
        if one.burst and number % one.burst[0] == 0:
            at += one.burst[1] / one.frequency
    return np.array(starts)


def _off_time(one, since):
    since = np.maximum(since, 0.0)
    spike = one.leakage * np.exp(-since / one.leakage_decay) * np.sin(
        2 * np.pi * one.leakage_ring * since)
    if one.demagnetisation is None:
        period = (1 - one.duty) / one.frequency
        return one.bus + one.reflected * (1 + one.sag * (1 - since / period)) + spike
    share = np.clip(since / one.demagnetisation, 0, 1)
    held = one.bus + one.reflected * (1 + one.sag * (1 - share))
    free = np.maximum(since - one.demagnetisation, 0.0)
    omega = 2 * np.pi * one.ring
    rings = np.exp(-free / one.decay) * (np.cos(omega * free)
                                         + np.sin(omega * free) / (omega * one.decay))
    return np.where(since < one.demagnetisation, held, one.bus + one.reflected * rings) + spike


@dataclass(frozen=True)
class Case:
    kind: str                 # what was drawn
    flyback: Flyback
    scope: Scope
    role: str
    invert: bool
    is_readable: bool = True

    def channels(self):
        return capture(self.flyback, self.scope, self.role, self.invert)

    def frequency(self):
        """Pulses of the capture over the time from the first to the last, pauses left out."""
        starts = _turn_ons(self.flyback, self.scope.count / self.scope.rate)
        return 1 / float(np.quantile(np.diff(starts[1:]), 0.5)) if self.flyback.burst else (
            (len(starts) - 3) / float(starts[-2] - starts[1]))


KINDS = ("discontinuous",) * 4 + ("continuous",) * 4 + ("boundary",) * 3 + (
    "valley", "valley", "burst", "burst", "burst", "few periods", "few samples", "cut off")


def drawn(random):
    """One invented capture, within what converters and oscilloscopes of the bench are like."""
    kind = KINDS[random.integers(len(KINDS))]
    flyback = _drawn_flyback(random, kind)
    scope = _drawn_scope(random, kind, flyback)
    if random.random() < 0.3 and kind in ("discontinuous", "continuous"):
        flyback = replace(flyback, dither=random.uniform(0.01, 0.04),
                          dither_rate=random.uniform(2, 6) * scope.rate / scope.count)
    # A winding in continuous conduction tells its on-time by the leakage spike alone.
    shows = kind != "continuous" or scope.rate > 40e6
    winding = kind != "cut off" and shows and random.random() < 0.25
    if winding:
        scope = replace(scope, noise=scope.noise / 15)
        flyback = replace(flyback, leakage=max(flyback.leakage, 0.7 * flyback.reflected))
    case = Case(kind, flyback, scope, "winding_voltage" if winding else "switch_voltage",
                winding and random.random() < 0.5, kind in set(KINDS[:-3]))
    return _cut_off(random, case) if kind == "cut off" else case


def _drawn_flyback(random, kind):
    one = Flyback(
        bus=random.uniform(120, 370), reflected=random.uniform(60, 110),
        ring=np.exp(random.uniform(np.log(250e3), np.log(900e3))), on_drop=random.uniform(0.3, 3),
        leakage_ring=random.uniform(3e6, 9e6), leakage_decay=random.uniform(0.06e-6, 0.15e-6),
        sag=random.uniform(0, 0.04), edge=random.uniform(15e-9, 50e-9))
    one = replace(one, leakage=random.uniform(0.25, 0.9) * one.reflected,
                  decay=random.uniform(2, 6) / one.ring)
    if kind == "continuous":
        duty = one.reflected / (one.reflected + one.bus)
        return replace(one, frequency=random.uniform(45e3, 140e3), duty=duty,
                       demagnetisation=None, truth="continuous")
    return _emptied(random, one, kind)


def _emptied(random, one, kind):
    """With an on-time of 1 to 6 µs, or so long that it takes 2 µs to empty the transformer."""
    on_time = max(random.uniform(1e-6, 6e-6), 2e-6 * one.reflected / one.bus)
    one = balanced(replace(one, frequency=1e5, duty=on_time * 1e5))
    if kind in ("boundary", "valley"):
        return valley_switched(one, 1 if kind == "boundary" else int(random.integers(2, 5)))
    rest = random.uniform(1.8, 10) / one.ring
    frequency = 1 / (on_time + one.demagnetisation + rest)
    one = replace(one, frequency=frequency, duty=on_time * frequency)
    if kind != "burst":
        return one
    return replace(one, truth="burst",
                   burst=(int(random.integers(3, 20)), int(random.integers(2, 30))))


def _drawn_scope(random, kind, one):
    needed = max(80.0, 7 * one.ring / one.frequency, 6 / one.duty)
    samples = np.exp(random.uniform(np.log(needed), np.log(max(1200.0, 1.5 * needed))))
    periods = random.uniform(12, 50)
    if kind == "burst":
        periods, samples = 3.2 * sum(one.burst), min(samples, 1.3 * needed)
    if kind == "few periods":
        periods = random.uniform(1.5, 4.5)
    if kind == "few samples":
        samples, periods = random.uniform(8, 35), 60
    span = one.bus + one.reflected
    return Scope(
        rate=samples * random.uniform(0.97, 1.03) * one.frequency, count=int(samples * periods),
        noise=span * random.uniform(0.001, 0.02), factor=random.choice([1.0, 0.1, 10.0, 0.013]),
        offset=random.uniform(-50, 50), bits=int(random.choice([0, 8])),
        seed=int(random.integers(1 << 31)))


def _cut_off(random, case):
    """With the plateau above the screen, on the scale that the scope shows."""
    level = case.flyback.bus + random.uniform(0.2, 0.85) * case.flyback.reflected
    scope = case.scope
    return replace(case, scope=replace(scope, top=scope.factor * level + scope.offset))
