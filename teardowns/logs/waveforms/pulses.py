"""Where the switch turns on and off."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.waveforms.trace import Trace, Unreadable

LOW, HIGH = 0.06, 0.20    # of the span above the on level: ringing must not cross both
DIP = 0.4                 # of a usual on-time: what is shorter is the ring touching the on level
SHARP = 0.15e-6           # s: the longest turn-off, from the on level to half way
SLOW = 0.05               # of the period: a turn-off that takes longer is none
FEWEST_PERIODS, FEWEST_SAMPLES, FEWEST_ON = 5, 40, 4
_NO_SWITCHING = ("No switching is seen in this span: choose one in which the converter runs, at a "
                 "load that keeps it running.")


@dataclass(frozen=True, slots=True)
class Pulses:
    on: np.ndarray            # (n,) place of each turn-on, in samples; between two samples: half
    off: np.ndarray           # (n,) place of the turn-off that ends it
    on_level: float           # V, on the capture's own scale
    top: float                # V, sustained level after the turn-off
    rise: float               # samples from the on level to half way

    @property
    def periods(self) -> np.ndarray:
        return np.diff(self.on)       # (n − 1,)

    @property
    def on_times(self) -> np.ndarray:
        return self.off - self.on     # (n,)


def pulses_of(trace: Trace) -> Pulses:
    """Turn-ons and turn-offs, found twice: the first finds the levels for the second."""
    on_level, top = np.quantile(trace.values, [0.005, 0.9])
    rough = _between(trace, on_level, top)
    on_level, top = _levels(trace.values, rough)
    found = _between(trace, on_level, top)
    _check(trace, found)
    return found


def _between(trace, on_level, top):
    span, quiet = top - on_level, trace.noise / np.sqrt(trace.width)
    low = on_level + max(LOW * span, 3.5 * quiet)
    high = max(on_level + HIGH * span, low + 3.5 * quiet)
    first, last = _below(trace.values, low, high)
    if len(first) < 2:
        raise Unreadable(_NO_SWITCHING)
    on, off, rise = _at_half(trace, first, last, on_level + 0.5 * span)
    long = off - on
    keep = long >= DIP * np.quantile(long, 0.75)
    if keep.sum() < 2:
        raise Unreadable(_NO_SWITCHING)
    return Pulses(on[keep], off[keep], float(on_level), float(top), rise)


def _below(values, low, high):
    """(k,), (k,) first and last sample of each stay below `low` that `high` ends on both sides."""
    is_low, is_high = values < low, values > high
    marked = np.flatnonzero(is_low | is_high)
    state = is_low[marked]
    turns = np.flatnonzero(state[1:] != state[:-1])
    down, up = turns[state[turns + 1]], turns[~state[turns + 1]]
    if len(down) and len(up) and up[0] < down[0]:
        up = up[1:]
    count = min(len(down), len(up))
    return marked[down[:count] + 1], marked[up[:count]]


def _at_half(trace, first, last, half):
    """The edges where they pass half way: a turn-off of the span, a turn-on of what it starts from,
    for that may be anywhere on the ring."""
    above = trace.values > half
    rises = np.flatnonzero(~above[:-1] & above[1:]) + 0.5
    off = last + 0.5
    if not len(rises):
        return first - 0.5, off, np.inf
    after = rises[np.minimum(np.searchsorted(rises, off, "left"), len(rises) - 1)] - off
    sharp = (after >= 0) & (after <= max(SHARP / trace.step, 1.0) + trace.width)
    slowest = float(np.median(after[sharp])) if sharp.any() else 0.0
    reach = trace.width + 1 + int(1.5 * slowest)
    on = _turn_ons(trace.values, first, reach)
    return on, np.where(sharp, off + after, off), float(np.median(after))


def _turn_ons(values, first, reach):
    """Half a sample before the first that lies below the middle of the step down to `first`."""
    window = values[np.maximum(first[:, None] - np.arange(1, reach + 1), 0)]      # backwards
    middle = 0.5 * (window[:, -1] + values[np.minimum(first + 1, len(values) - 1)])
    below = np.logical_and.accumulate(window < middle[:, None], axis=1)
    return first - 0.5 - below.sum(axis=1)


def _levels(values, pulses):
    """Median of what lies well inside the on-times, and of the first half after each turn-off."""
    quarter = np.maximum((pulses.on_times / 4).astype(int), 1)
    first, last = np.ceil(pulses.on).astype(int) + quarter, pulses.off.astype(int) - quarter
    inside = _median_over(values, first, last)
    gap = np.append(pulses.periods, np.median(pulses.periods)) - pulses.on_times
    span = np.minimum(gap, 2 * np.median(pulses.on_times))
    first = np.ceil(pulses.off + 0.1 * span).astype(int)
    return inside, _median_over(values, first, np.ceil(pulses.off + 0.3 * span).astype(int))


def _median_over(values, first, last):
    count = len(values)
    pieces = [values[a:max(b, a) + 1]
              for a, b in zip(first[:500], last[:500], strict=True) if a < count]
    return float(np.median(np.concatenate(pieces)))


def _check(trace, pulses):
    if len(pulses.on) <= FEWEST_PERIODS:
        raise Unreadable(f"The span holds {max(len(pulses.on) - 1, 0)} whole periods and "
                         f"{FEWEST_PERIODS} are needed, 20 or more are better: capture a longer "
                         "time.")
    period = float(np.quantile(pulses.periods, 0.25))
    if period < FEWEST_SAMPLES:
        raise Unreadable(f"A period has {period:.0f} samples and {FEWEST_SAMPLES} are needed, 200 "
                         "or more are better: capture a shorter time, or with more samples.")
    if np.median(pulses.on_times) < max(FEWEST_ON, 2 * trace.width):
        raise Unreadable("The on-time has too few samples for its noise: capture a shorter time, "
                         "or with more samples and the probe's shortest ground lead.")
    if pulses.rise > SLOW * period + trace.width:
        raise Unreadable("The node does not leave its low level at a stroke, as a switch does that "
                         "turns off: probe the switch, or an output-side winding.")
