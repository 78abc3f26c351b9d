"""How a converter follows its load: captures of one node at several loads beside each other."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from teardowns.logs.extracted import Extracted, Result, Told, Unread
from teardowns.logs.waveforms.labels import label

CODE = "load_following"
STEADY = 0.05             # relative: a frequency or an on-time that moves no more stands still
LEAST_SHOWN = 0.001       # relative: a smaller move is not printed as a number
APART = 1.5               # largest over smallest load
_SAYS = {
    "fixed_frequency": "Fixed frequency: the on-time follows the load.",
    "constant_on_time": "Constant on-time: the frequency follows the load.",
    "frequency_foldback": "Frequency foldback: the frequency falls with the load.",
    "rising_frequency": "The frequency rises as the load falls, as a switch does that waits for "
                        "the transformer to be empty.",
    "burst": "Burst: at low load pulses come in groups, with pauses between them.",
    "standing": "Neither frequency nor on-time moves with the load, as in continuous conduction.",
}


@dataclass(frozen=True, slots=True)
class Capture:
    load: float               # W at the output
    results: tuple[Result, ...]       # of read_waveform


@dataclass(frozen=True, slots=True)
class _Point:
    load: float
    frequency: float
    on_time: float
    is_burst: bool


def follow_load(captures: Sequence[Capture]) -> list[Result]:
    """One result in words, with the numbers at each load."""
    points = sorted(filter(None, map(_point, captures)), key=lambda point: point.load)
    if len(points) < 2 or points[0].load <= 0 or points[-1].load < APART * points[0].load:
        return [Unread(CODE, label(CODE), "Frequency and on-time at two loads at least, one half "
                       "as large again as the other, are needed: capture the node at more loads.")]
    word, how = _word(points)
    return [Told(CODE, label(CODE), word, _SAYS[word], points[0].load, points[-1].load,
                 (*map(_line, points), *how))]


def _point(capture):
    value = {one.code: one.value for one in capture.results if isinstance(one, Extracted)}
    word = {one.code: one.word for one in capture.results if isinstance(one, Told)}
    frequency = value.get("switching_frequency", value.get("pulse_frequency"))
    on_time = value.get("on_time", value.get("pulse_on_time"))
    if frequency is None or on_time is None:
        return None
    return _Point(capture.load, frequency, on_time, word.get("conduction_mode") == "burst")


def _line(point):
    return (f"{point.load:.4g} W: {point.frequency / 1e3:.4g} kHz, on for "
            f"{point.on_time * 1e6:.4g} µs{', in bursts' if point.is_burst else ''}.")


def _word(points):
    steady = [point for point in points if not point.is_burst]
    how = []
    if len(steady) >= 2:
        low, high = steady[0], steady[-1]
        frequency, on_time = (high.frequency / low.frequency - 1, high.on_time / low.on_time - 1)
        how = [f"From {low.load:.4g} W to {high.load:.4g} W the frequency moves by "
               f"{_moved(frequency)}, the on-time by {_moved(on_time)}."]
    if len(steady) < len(points):
        most = max(point.load for point in points if point.is_burst)
        return "burst", [*how, f"In bursts at {most:.4g} W and below, as far as was captured."]
    return _without_bursts(steady, frequency, on_time), how


def _moved(share):
    if abs(share) < LEAST_SHOWN:
        return f"less than {100 * LEAST_SHOWN:g} %"
    return f"{100 * share:+.1f} %".replace("-", "\u2212")


def _without_bursts(points, frequency, on_time):
    spread = max(p.frequency for p in points) / min(p.frequency for p in points) - 1
    if spread <= STEADY:
        return "fixed_frequency" if on_time > STEADY else "standing"
    if abs(on_time) <= STEADY and frequency > STEADY:
        return "constant_on_time"
    return "frequency_foldback" if frequency > 0 else "rising_frequency"
