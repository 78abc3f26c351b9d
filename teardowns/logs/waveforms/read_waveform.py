"""What a capture of a switching node shows, each result with its working, or why not."""
from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Result, Told, Unread
from teardowns.logs.waveforms.conduction import BURST, Conduction, conduction_of
from teardowns.logs.waveforms.labels import label, unit
from teardowns.logs.waveforms.levels import CUT, read_levels
from teardowns.logs.waveforms.polarity import seen_upright
from teardowns.logs.waveforms.profile import Profile
from teardowns.logs.waveforms.pulses import Pulses
from teardowns.logs.waveforms.rhythm import TIME_BASE, Rhythm
from teardowns.logs.waveforms.trace import Trace, Unreadable, trace_of

FULL_LOAD = 0.8           # of the rated power: below, frequency and on-time are not those at full
GATE = 20e-9              # s: how well an on-time is defined by its edges; common practice
CODES = ("switching_frequency", "duty_cycle", "on_time", "conduction_mode", "plateau",
         "bus_level", "reflected_share", "reflected_voltage", "demagnetisation_time",
         "ring_frequency", "node_capacitance", "energy_per_cycle", "bus_power")
_MODES = {
    "discontinuous": "Discontinuous conduction: the transformer is empty before each turn-on.",
    "continuous": "Continuous conduction: the secondary still carries current at each turn-on.",
    "boundary": "Boundary conduction: the switch turns on as soon as the transformer is empty, "
                "in the first valley of the ring or before.",
    "burst": "Burst: pulses come in groups, with pauses between them.",
}


@dataclass(frozen=True, slots=True)
class Reading:
    """All that the parts of one capture have in common."""

    trace: Trace
    pulses: Pulses
    rhythm: Rhythm
    profile: Profile
    conduction: Conduction
    conditions: Conditions
    is_cut: bool              # the top of the trace lies beyond the screen
    on_time: float            # s
    on_time_u: float

    @property
    def frequency(self) -> float:
        return self.rhythm.frequency

    @property
    def frequency_u(self) -> float:
        return float(np.sqrt(sum(u * u for _, u in self.frequency_budget)))

    @property
    def frequency_budget(self) -> tuple[tuple[str, float], ...]:
        return (("places of the edges", self.rhythm.fit_u),
                ("time base, 0.01 % assumed", TIME_BASE * self.frequency),
                ("swing of the frequency", self.rhythm.swing))

    def cycle(self) -> tuple[float, float, float]:
        """Turn-on, turn-off and next turn-on of the period that stands for all. [s]"""
        number = self.profile.cycle
        on, off, then = (float(self.trace.time(place)) for place in (
            self.pulses.on[number], self.pulses.off[number], self.pulses.on[number + 1]))
        return on, off, then

    def whole(self) -> tuple[float, float]:
        """First and last turn-on. [s]"""
        first, last = self.trace.time(self.pulses.on[[0, -1]])
        return float(first), float(last)

    def number(self, code: str, value: float, budget: Sequence[tuple[str, float]],
               working: Iterable[str], span: tuple[float, float]) -> Extracted:
        stated = {"mains_voltage": self.conditions.mains_voltage}
        return Extracted(
            code, label(code), float(value),
            float(np.sqrt(sum(u * u for _, u in budget))), unit(code), span[0],
            span[1], tuple((name, float(u)) for name, u in budget), tuple(working),
            {name: known for name, known in stated.items() if known is not None},
            self.trace.column)


def read_waveform(channels: Channels, conditions: Conditions,
                  results: Collection[str] | None = None,
                  span: tuple[float, float] | None = None) -> list[Result]:
    """Every result of the switching node, or those of the codes, read within the span. [s]"""
    found = _results(channels.between(*span) if span else channels, conditions)
    return [result for result in found if results is None or result.code in results]


def _results(channels, conditions):
    try:
        reading = reading_of(channels, conditions)
    except Unreadable as reason:
        return [Unread(code, label(code), str(reason)) for code in CODES]
    return [*_times(reading), _mode(reading), *read_levels(reading)]


def reading_of(channels: Channels, conditions: Conditions) -> Reading:
    """Raises Unreadable."""
    trace, pulses, rhythm, profile = seen_upright(trace_of(channels))
    steps = pulses.on_times
    on_time = float(np.mean(steps)) * trace.step
    counted = 0.41 * trace.step / (np.sqrt(len(steps)) if np.ptp(steps) > 0.5 else 1.0)
    return Reading(trace, pulses, rhythm, profile, conduction_of(profile, pulses.on_level),
                   conditions, _is_cut(trace, pulses), on_time,
                   float(np.hypot(counted, GATE)))


def _is_cut(trace, pulses):
    """Many samples at the very top, and the plateau among them."""
    span = pulses.top - pulses.on_level
    top = float(trace.values.max())
    at_top = np.mean(trace.values >= top - 1e-6 * span)
    return bool(at_top > 0.02 and top - pulses.top <= 1e-6 * span)


def _times(reading):
    """Frequency, duty cycle and on-time; in bursts and at part load by other names, for no rule
    may take them for those at full load."""
    whole = reading.whole()
    full = _is_full_load(reading)
    codes = ("switching_frequency", "on_time") if full else ("pulse_frequency", "pulse_on_time")
    periods = sum(last - first for first, last in reading.rhythm.bursts)
    yield reading.number(codes[0], reading.frequency, reading.frequency_budget, [
        f"A straight line through number and time of {len(reading.pulses.on)} turn-ons, over "
        f"{periods} periods: {reading.frequency / 1e3:.4g} kHz.", *_swing(reading),
        _loaded(reading)], whole)
    duty = reading.on_time * reading.frequency
    duty_u = (("edges and samples", reading.on_time_u * reading.frequency),
              ("frequency", reading.on_time * reading.frequency_u))
    yield reading.number("duty_cycle", duty, duty_u, [
        f"Mean on-time {reading.on_time * 1e6:.4g} µs times {reading.frequency / 1e3:.4g} kHz = "
        f"{duty:.4f}."], reading.cycle()[::2])
    yield reading.number(codes[1], reading.on_time, (
        ("samples", float(np.sqrt(max(reading.on_time_u**2 - GATE**2, 0.0)))),
        ("edges, 20 ns assumed", GATE)), [
        f"Mean of {len(reading.pulses.on)} on-times, from half way down to half way up: "
        f"{reading.on_time * 1e6:.4g} µs.", _loaded(reading)], reading.cycle()[:2])
    if not full:
        yield from (Unread(code, label(code), _NOT_FULL) for code in ("switching_frequency",
                                                                      "on_time"))
    yield from _bursts(reading, whole)


_NOT_FULL = ("This capture was not taken at full load, where alone the number counts as evidence: "
             "capture the node at the rated load.")


def _is_full_load(reading):
    load, rated = reading.conditions.load, reading.conditions.rated_power
    part = load is not None and rated is not None and load < FULL_LOAD * rated
    return not (part or reading.rhythm.is_burst)


def _loaded(reading):
    load = reading.conditions.load
    if load is None:
        return "The load is not stated. As evidence it counts only if taken at full load."
    return f"Taken at a load of {load:.4g} W."


def _swing(reading):
    if reading.rhythm.swing:
        yield (f"From period to period it swings by {reading.rhythm.swing / 1e3:.3g} kHz (one "
               "standard deviation), more than the samples explain: the mean is given.")


def _bursts(reading, whole):
    bursts = reading.rhythm.bursts
    if not reading.rhythm.is_burst:
        return
    begins = reading.trace.time(reading.pulses.on[[first for first, _ in bursts]])
    if len(begins) < 3:
        yield Unread("burst_rate", label("burst_rate"), "Fewer than three bursts are in the span: "
                     "capture a longer time.")
        return
    waits = np.diff(begins)
    rate = 1 / float(np.mean(waits))
    yield reading.number("burst_rate", rate, (
        ("from burst to burst", rate * rate * float(np.std(waits)) / np.sqrt(len(waits))),
        ("time base, 0.01 % assumed", TIME_BASE * rate)), [
        f"{len(begins)} bursts, one every {1e3 / rate:.4g} ms."], whole)


def _mode(reading):
    code = "conduction_mode"
    if reading.rhythm.is_burst:
        span = reading.whole()
        return Told(code, label(code), BURST, _MODES[BURST], span[0], span[1],
                    tuple(_groups(reading)))
    if reading.is_cut:
        return Unread(code, label(code), CUT)
    mode, (begins, _, ends) = reading.conduction.mode, reading.cycle()
    return Told(code, label(code), mode, _MODES[mode], begins, ends, tuple(_seen(reading)))


def _groups(reading):
    counts = [last - first + 1 for first, last in reading.rhythm.bursts]
    yield (f"{len(counts)} groups of {min(counts)} to {max(counts)} pulses; between the groups at "
           "least 1.7 periods without one.")


def _seen(reading):
    found = reading.conduction
    if found.mode == "continuous":
        yield "Between turn-off and turn-on the node stays on its plateau and rings nowhere."
        yield "That the current just reaches zero at the turn-on would look the same."
    elif found.demagnetised is not None:
        yield (f"The plateau ends {found.demagnetised * 1e6:.4g} µs after the turn-off, the next "
               f"turn-on follows {reading.profile.length * 1e6:.4g} µs after it.")
    if found.valley:
        yield f"The turn-on lies in valley {found.valley} of the ring."
