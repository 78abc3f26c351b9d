"""Weight bars: what pushed for and against a claim, in decibans."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis, grid, linear_axis, tick_labels, upright
from .marks import kind_mark
from .markup import element, escape, percent, picture, pinned
from .scale_table import linked, scale_row, scale_table

LONGEST = 100.0         # decibans; a longer bar is cut, and the numbers say so
SHORTEST = 10.0         # decibans to either side at least, so that small weights look small
HEADS = ("Line of evidence", "Against, left of zero; for, right of zero", "Decibans")


@dataclass(frozen=True, slots=True)
class Weight:
    kind: str
    title: str
    decibans: float
    text: str               # "−66.2"
    way: str                # "against"
    href: str = ""


def weight_bars(caption: str, weights: Sequence[Weight]) -> str:
    axis = weight_axis([weight.decibans for weight in weights])
    rows = [_row(axis, weight) for weight in weights]
    return scale_table("weights", caption, HEADS, _scale(axis), rows)


def weight_axis(decibans: Sequence[float]) -> Axis:
    low = max(min(decibans, default=0), -LONGEST)
    high = min(max(decibans, default=0), LONGEST)
    return linear_axis(min(low, -SHORTEST), max(high, SHORTEST))


def _scale(axis: Axis) -> str:
    zero = percent(axis(0))
    against = element("text", "against", x=zero, dx="-.6em", y=".8rem", text_anchor="end")
    return tick_labels(axis) + against + element("text", "for", x=zero, dx=".6em", y=".8rem")


def _row(axis: Axis, weight: Weight) -> str:
    zero, end = axis(0), axis(weight.decibans)
    bar = element("rect", cls=f"w-{weight.kind}", x=percent(min(zero, end)),
                  width=percent(abs(end - zero)), y=-6, height=12)
    cut = "" if axis.holds(weight.decibans) else _cut(end)
    drawing = grid(axis) + element("svg", bar, y="50%", height="1") + cut + upright("zero", zero)
    side = f"{weight.way}, bar cut" if cut else weight.way
    spoken = f"{weight.text} decibans, {side}"
    numbers = linked(weight.text, weight.href) + element("small", side)
    return scale_row(kind_mark(weight.kind, escape(weight.title)), picture(drawing, spoken),
                     numbers)


def _cut(end: float) -> str:
    """Two slashes through the bar near its cut end."""
    slashes = element("path", cls="cut", d="M-3 11l6-22M2 11l6-22")
    return pinned(3 if end <= 50 else 97, slashes)
