"""An axis of time: its unit by the length of the span, its ticks on round numbers."""
from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10

from .axes import MINUS

# Unit, its seconds, and the span from which on it is used [s].
UNITS = (("ns", 1e-9, 0.0), ("µs", 1e-6, 2e-6), ("ms", 1e-3, 2e-3), ("s", 1.0, 2.0),
         ("min", 60.0, 180.0), ("h", 3600.0, 3 * 3600.0))
LARGEST = 10_000         # number before which the next larger decimal unit is easier to read
SIXTIES = (1, 2, 5, 10, 15, 30)
HOURS = (1, 2, 3, 6, 12, 24)


@dataclass(frozen=True, slots=True)
class TimeTicks:
    unit: str
    at: tuple[float, ...]         # s
    labels: tuple[str, ...]       # numbers in the unit


def time_ticks(start: float, end: float, most: int = 7) -> TimeTicks:
    """Round times in [start, end], at most so many of them."""
    unit, seconds = _unit(start, end)
    step = _step((end - start) / seconds / max(most - 1, 1), unit)
    first, last = ceil(start / seconds / step - 1e-9), floor(end / seconds / step + 1e-9)
    decimals = max(0, -floor(log10(step) + 1e-9))
    numbers = [i * step for i in range(first, last + 1)]
    return TimeTicks(unit, tuple(number * seconds for number in numbers),
                     tuple(_printed(number, decimals) for number in numbers))


def _unit(start, end):
    span = end - start or abs(end)
    fitting = [i for i, (_, _, least) in enumerate(UNITS) if span >= least]
    place = fitting[-1] if fitting else 0
    while place < 3 and max(abs(start), abs(end)) / UNITS[place][1] >= LARGEST:
        place += 1                     # 7200.005 s is easier to read than 7200005 ms
    return UNITS[place][:2]


def _step(rough, unit):
    """The smallest round step that is no smaller; a minute has sixty seconds, a day 24 hours."""
    named = {"min": SIXTIES, "h": HOURS}.get(unit, ())
    if named and 1 < rough <= named[-1]:
        return next(step for step in named if step >= rough * (1 - 1e-9))
    decade = 10.0 ** floor(log10(rough)) if rough > 0 else 1.0
    return next(m * decade for m in (1, 2, 5, 10) if m * decade >= rough * (1 - 1e-9))


def _printed(number, decimals):
    text = f"{abs(number):.{decimals}f}"
    return text if number >= 0 or float(text) == 0 else f"{MINUS}{text}"
