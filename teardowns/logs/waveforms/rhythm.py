"""How often the switch turns on: frequency, dither, bursts."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.waveforms.pulses import Pulses
from teardowns.logs.waveforms.trace import Trace

PAUSE = 1.7               # periods: a longer wait is a pulse left out
TIME_BASE = 1e-4          # of the time base of an oscilloscope, taken where none is stated


@dataclass(frozen=True, slots=True)
class Rhythm:
    frequency: float          # Hz, of the pulses without the pauses between bursts
    fit_u: float              # Hz, from the places of the edges
    swing: float              # Hz, standard deviation of the frequency from period to period
    bursts: tuple[tuple[int, int], ...]     # first and last pulse of each run without a pause

    @property
    def is_burst(self) -> bool:
        return len(self.bursts) > 1

    def steady(self, count: int) -> np.ndarray:
        """(count − 1,) bool: the period that follows is no pause."""
        steady = np.ones(count - 1, bool)
        steady[[last for _, last in self.bursts[:-1]]] = False
        return steady


def rhythm_of(trace: Trace, pulses: Pulses) -> Rhythm:
    """A straight line through number and time of the edges, one slope for all bursts.

    Where the period swings by more than the samples explain, the mean of the periods, for a line
    weighs the middle of a swing more than its ends.
    """
    periods = pulses.periods
    usual = float(np.quantile(periods, 0.25))
    breaks = np.flatnonzero(periods > PAUSE * usual)
    bursts = tuple(zip([0, *(breaks + 1)], [*breaks, len(periods)], strict=True))
    steady = periods[periods <= PAUSE * usual]
    swing = float(np.sqrt(max(np.var(steady) - 1 / 3, 0.0)))
    slope, slope_u, off_line = _line(pulses.on, bursts)
    if off_line > 1.5:
        slope, slope_u = float(np.mean(steady)), 0.6 * np.sqrt(len(bursts)) / len(steady)
    frequency = 1 / (slope * trace.step)
    return Rhythm(frequency, frequency * slope_u / slope,
                  frequency * swing / slope if off_line > 1.5 else 0.0, bursts)


def _line(on, bursts):
    """Slope over all runs, its standard uncertainty and the scatter about the line [samples]."""
    number, place = np.arange(len(on), dtype=float), np.array(on)
    for first, last in bursts:
        run = slice(first, last + 1)
        number[run] -= number[run].mean()
        place[run] -= place[run].mean()
    square = float(number @ number)
    slope = float(number @ place) / square
    scatter = float(np.sqrt(np.mean((place - slope * number) ** 2)))
    return slope, max(scatter, 0.29) / np.sqrt(square), scatter
