"""Scales: where a value stands, in percent of the width, and which values get a tick."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor, log, log10

from .markup import element, escape, percent

MINUS = "\u2212"
WIDEST = 4.0            # decades; more would leave no room for the marks


@dataclass(frozen=True, slots=True)
class Axis:
    low: float
    high: float
    ticks: tuple[float, ...]
    logarithmic: bool = False

    def __call__(self, value: float) -> float:
        """The value's place, 0 to 100; values outside stand at the nearer end."""
        value = min(max(value, self.low), self.high)
        if self.logarithmic:
            return 100 * log(value / self.low) / log(self.high / self.low)
        return 100 * (value - self.low) / (self.high - self.low)

    def holds(self, value: float) -> bool:
        return self.low <= value <= self.high


def log_axis(values: Iterable[float]) -> Axis:
    """A logarithmic axis around positive values, its ends on the series 1, 2, 5."""
    values = [value for value in values if value > 0]
    high = _stop_above(max(values, default=100) * 1.08)
    low = _stop_below(min(values, default=1) / 1.08)
    low = max(low, high / 10**WIDEST)
    if high / low < 10:
        low = _stop_below(high / 10)
    return Axis(low, high, _log_ticks(low, high), logarithmic=True)


def linear_axis(low: float, high: float, most_ticks: int = 7) -> Axis:
    """A linear axis that holds both values, its ends and ticks on round numbers."""
    step = _round_step((high - low) / (most_ticks - 1))
    first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
    ticks = tuple(round(i * step, 12) for i in range(first, last + 1))
    return Axis(ticks[0], ticks[-1], ticks)


def grid(axis: Axis) -> str:
    """Hairlines at the ticks, through the whole height of a row: one path, for many rows have it.
    """
    places = (f"{10 * axis(tick):.1f}" for tick in axis.ticks)
    lines = element("path", cls="grid", d="".join(f"M{x},0L{x},1" for x in places),
                    vector_effect="non-scaling-stroke")
    return element("svg", lines, viewBox="0 0 1000 1", preserveAspectRatio="none")


def upright(cls: str, share: float, top: object = 0, bottom: object = "100%") -> str:
    x = percent(share)
    return element("line", cls=cls, x1=x, x2=x, y1=top or None, y2=bottom)


def tick_labels(axis: Axis, kept_free: Iterable[float] = ()) -> str:
    """The numbers at the foot of the head row, except where a line runs through them."""
    taken = [axis(value) for value in kept_free]
    shown = (t for t in axis.ticks if all(abs(axis(t) - x) >= 4 for x in taken))
    return "".join(upright("grid", axis(t), "90%") for t in axis.ticks) + "".join(
        element("text", escape(plain(t)), cls="axis-t", x=percent(axis(t)), y="100%",
                dy="-.55em", text_anchor="middle")
        for t in shown
    )


def plain(number: float) -> str:
    """A tick as text, with a real minus sign and no exponent."""
    text = f"{abs(number):.6f}".rstrip("0").rstrip(".")
    return f"{MINUS}{text}" if number < 0 else text


def _stop_above(value: float) -> float:
    decade = 10.0 ** floor(log10(value))
    return next(m * decade for m in (1, 2, 5, 10) if m * decade >= value * (1 - 1e-9))


def _stop_below(value: float) -> float:
    decade = 10.0 ** floor(log10(value))
    return next(m * decade for m in (5, 2, 1) if m * decade <= value * (1 + 1e-9))


def _log_ticks(low: float, high: float) -> tuple[float, ...]:
    decades = log10(high / low)
    series = (1, 2, 5) if decades <= 2.4 else (1, 3) if decades <= 3.2 else (1,)
    first, last = floor(log10(low)), ceil(log10(high))
    stops = (m * 10.0**d for d in range(first, last + 1) for m in series)
    return tuple(s for s in stops if low * (1 - 1e-9) <= s <= high * (1 + 1e-9))


def _round_step(rough: float) -> float:
    return _stop_above(rough) if rough > 0 else 1.0
