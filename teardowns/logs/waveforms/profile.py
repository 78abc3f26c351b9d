"""One off-time out of many: laid over each other at the turn-off, the median of each sample."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.waveforms.pulses import Pulses
from teardowns.logs.waveforms.rhythm import Rhythm
from teardowns.logs.waveforms.trace import Trace, Unreadable

MOST = 400                # off-times that are laid over each other
EDGE = 0.1e-6             # s before the turn-on that belong to its edge
BLANKED = 0.6e-6          # s after the turn-off, for the leakage inductance rings there


@dataclass(frozen=True, slots=True)
class Profile:
    values: np.ndarray        # (n,) V from the turn-off to just before the next turn-on
    step: float               # s
    length: float             # s from turn-off to turn-on, of a usual period
    blank: int                # samples after the turn-off that are not looked at
    noise: float              # V, of one sample of the profile
    cycle: int                # number of the pulse that stands for all


def profile_of(trace: Trace, pulses: Pulses, rhythm: Rhythm) -> Profile:
    """Of the periods without a pause; raises Unreadable."""
    steady = np.flatnonzero(rhythm.steady(len(pulses.on)))
    lengths = (pulses.on[1:] - pulses.off[:-1])[steady]
    usual = float(np.quantile(lengths, 0.1))
    chosen = steady[np.abs(lengths - np.median(lengths)) <= 0.5 * np.median(lengths)]
    chosen = chosen[np.linspace(0, len(chosen) - 1, min(MOST, len(chosen))).astype(int)]
    margin = trace.width // 2 + 1 + int(min(EDGE / trace.step, 0.04 * usual))
    count = max(int(usual) - margin, 4)
    first = np.ceil(pulses.off[chosen]).astype(int)
    whole = first + count <= len(trace.values)
    chosen, first = chosen[whole], first[whole]
    if not len(first):
        raise Unreadable("No two periods are alike: capture the node at a steady load, with its "
                         "plateau within the screen.")
    table = trace.values[first[:, None] + np.arange(count)]
    values = np.median(table, axis=0)
    scatter = np.median(np.abs(table - values)) / 0.6745 * 1.25 / np.sqrt(len(first))
    floor = max(trace.digit, 1e-4 * (pulses.top - pulses.on_level)) / np.sqrt(12 * len(first))
    blank = int(min(BLANKED / trace.step, count / 5)) + trace.width
    return Profile(values, trace.step, usual * trace.step, blank,
                   float(max(scatter, floor)), int(chosen[len(chosen) // 2]))
