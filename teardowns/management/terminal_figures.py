"""Small drawings in characters: a power axis, a weight bar, a cell of fixed width."""
from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, log10
from unicodedata import combining, east_asian_width

LARGEST = 30.0              # decibans that fill half of a weight bar
BAR = 8                     # characters of that half
AXIS = 44                   # characters of the power axis
KEY = "━ 90 %  ◆ median"
CLAIM_KEY = "  ┃ claimed "


def columns_of(text: str) -> int:
    """How many columns of a terminal a text takes: full-width characters take two."""
    return sum(0 if combining(char) else 2 if east_asian_width(char) in "WF" else 1
               for char in text)


def cell(text: str, width: int) -> str:
    """The text in exactly `width` columns, cut with an ellipsis where it is longer."""
    if columns_of(text) > width:
        while columns_of(text) > width - 1:
            text = text[:-1]
        text += "…"
    return text + " " * (width - columns_of(text))


def power_scale(numbers: Sequence[float]) -> tuple[float, float]:
    """Round ends of an axis, 1 2 5 a decade, with room around positive numbers."""
    exponents = range(floor(log10(min(numbers))) - 1, ceil(log10(max(numbers))) + 2)
    steps = [scale * 10.0**exponent for exponent in exponents for scale in (1, 2, 5)]
    return (max(step for step in steps if step < min(numbers)),
            min(step for step in steps if step > max(numbers)))


def power_axis(ends: tuple[float, float], interval: tuple[float, float], median: float,
               claim: float | None) -> str:
    """An interval, its median and a claim on a logarithmic axis between two ends, all in W."""
    def place(value):
        share = log10(value / ends[0]) / log10(ends[1] / ends[0])
        return min(max(round((AXIS - 1) * share), 0), AXIS - 1)

    line = ["·"] * AXIS
    for at in range(place(interval[0]), place(interval[1]) + 1):
        line[at] = "━"
    line[place(median)] = "◆"
    if claim is not None:
        line[place(claim)] = "┃"
    return "".join(line)


def weight_bar(decibans: float) -> str:
    """A bar from the middle to the side it pushes to; beyond the scale it ends in an arrow."""
    bar = "█" * min(round(abs(decibans) / LARGEST * BAR), BAR)
    if decibans < 0:
        return (f"◀{bar[1:]}" if decibans < -LARGEST else bar).rjust(BAR) + "│"
    return " " * BAR + "│" + (f"{bar[1:]}▶" if decibans > LARGEST else bar)
