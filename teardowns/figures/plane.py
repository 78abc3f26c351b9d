"""What drawings of many units share: points that lead to their units, and a field with scales.

Positions across are percentages, positions up are pixels from the top. The table beside a drawing
holds the same numbers and links, so the drawing is no stop of the keyboard and no speech.
"""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .axes import Axis, plain, upright
from .curves import GUTTER, edge_anchor, text
from .markup import element, escape, percent

FOOT, HEAD = 44, 26      # px: numbers and name of the scale below, name of the scale above
NARROWEST = 30           # characters of numbers beside each other


@dataclass(frozen=True, slots=True)
class Point:
    """One unit. `hint` is what a pointer is told, in the reader's language: title and numbers."""

    x: float
    y: float
    href: str
    hint: str
    is_open: bool = False     # estimated, not measured


def field(contents: str, height: float, cls: str) -> str:
    """The drawing, as wide as its place; x counts from the end of the gutter."""
    inner = element("svg", contents, x=GUTTER, width="100%", height=f"{height:g}",
                    overflow="visible")
    return element("svg", inner, cls=f"plane {cls}", width="100%", height=f"{height:g}",
                   aria_hidden="true")


def linked_point(point: Point, share: float, y: float, radius: float = 4) -> str:
    glyph = element("circle", cls="pt-o" if point.is_open else "pt", cx=percent(share),
                    cy=f"{y:.1f}", r=f"{radius:g}")
    return element("a", element("title", escape(point.hint)), glyph, href=point.href, tabindex=-1,
                   translate="no")


def this_unit(share: float, y: float, label: str = "this unit") -> str:
    """A ring around the unit that the reader came from, and its name on the roomier side."""
    side, shift = ("end", -13) if share > 60 else ("start", 13)
    ring = element("circle", cls="this", cx=percent(share), cy=f"{y:.1f}", r=9)
    name = element("svg", element("text", escape(label), cls="this-t", x=shift, dy="-.5em",
                                  text_anchor=side),
                   x=percent(share), y=f"{y:.1f}", width=1, height=1)
    return ring + name


def this_value(share: float, top: float, bottom: float, label: str = "this unit") -> str:
    """A line through a panel at the value of the unit that the reader came from."""
    side, shift = ("end", "-.5em") if share > 60 else ("start", ".5em")
    return upright("this-w", share, f"{top:g}", f"{bottom:g}") + text(
        label, share, top + 10, side, "this-t", dx=shift)


def scale_below(axis: Axis, name: str, top: float, bottom: float) -> str:
    """Uprights through the field, their numbers under it, and the name of the scale."""
    lines = "".join(upright("grid", axis(tick), f"{top:g}", f"{bottom:g}") for tick in axis.ticks)
    numbers = "".join(text(plain(tick), axis(tick), bottom + 17, edge_anchor(axis(tick)), "axis-t")
                      for tick in roomy(axis.ticks))
    return lines + numbers + text(name, 100, bottom + 37, "end", "axis-n")


def scale_beside(axis: Axis, name: str, top: float, bottom: float) -> str:
    """Lines across with their numbers in the gutter, and the name of the scale above."""
    drawn = [element("text", escape(name), cls="axis-n", x=-GUTTER, y=f"{top - 10:g}")]
    for tick in axis.ticks:
        y = f"{level(axis, tick, top, bottom):.1f}"
        drawn.append(element("line", cls="grid", x1=0, x2="100%", y1=y, y2=y))
        drawn.append(element("text", plain(tick), cls="axis-t", x=-8, y=y, dy=".35em",
                             text_anchor="end"))
    return "".join(drawn)


def level(axis: Axis, value: float, top: float, bottom: float) -> float:
    return bottom - (bottom - top) * axis(value) / 100


def roomy(ticks: Iterable[float]) -> list[float]:
    """As many of the ticks as get their numbers beside each other on a phone."""
    shown = list(ticks)
    while sum(len(plain(tick)) + 2 for tick in shown) > NARROWEST and len(shown) > 2:
        shown = shown[::2]
    return shown
