"""Two quantities of many units: a point each, or cells inked by how many lie there."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .axes import Axis
from .curves import box
from .markup import element, percent
from .plane import (
    FOOT,
    HEAD,
    Point,
    field,
    level,
    linked_point,
    scale_below,
    scale_beside,
    this_unit,
)

PLOT = 380               # px


@dataclass(frozen=True, slots=True)
class Ink:
    """Cells of one tint: column and row of each, counted from the lower left."""

    step: int             # 0 is the lightest
    cells: Sequence[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Scatter:
    x: Axis
    y: Axis
    x_name: str           # "Mass, g"
    y_name: str
    points: Sequence[Point]
    band: Sequence[tuple[float, float, float, float]] = ()     # x, low, middle, high
    diagonal: str = ""                # name of the line y = x, where it is drawn
    ink: Sequence[Ink] = ()
    grain: tuple[int, int] = (1, 1)   # columns and rows of the cells
    this: tuple[float, float] | None = None
    whisker: tuple[float, float] | None = None     # low and high y of this unit


def scatter(chart: Scatter) -> str:
    top, bottom = HEAD, HEAD + PLOT
    drawn = [
        scale_below(chart.x, chart.x_name, top, bottom),
        scale_beside(chart.y, chart.y_name, top, bottom),
        box(_band(chart) + _ink(chart) + _edges(chart), top, PLOT), _diagonal(chart),
        *(linked_point(p, chart.x(p.x), level(chart.y, p.y, top, bottom)) for p in chart.points),
        _this(chart),
    ]
    return field("".join(drawn), bottom + FOOT, "scatter")


def _ink(chart: Scatter) -> str:
    """One path a tint: cells have no outline, so stretching them to the width does no harm."""
    wide, high = 1000 / chart.grain[0], PLOT / chart.grain[1]
    return "".join(
        element("path", cls=f"ink{ink.step}", d="".join(
            f"M{column * wide:.1f} {PLOT - (row + 1) * high:.1f}h{wide:.1f}v{high:.1f}H"
            f"{column * wide:.1f}z" for column, row in ink.cells))
        for ink in chart.ink)


def _band(chart: Scatter) -> str:
    if not chart.band:
        return ""
    upper = _way(chart, ((x, high) for x, _, _, high in chart.band))
    lower = _way(chart, ((x, low) for x, low, _, _ in reversed(chart.band)))
    return element("path", cls="band", d=f"M{upper}L{lower}z")


def _edges(chart: Scatter) -> str:
    """Middle and edges of the band, over ink as well as over paper: each line has a halo."""
    drawn = []
    for cls, place in (("band-e", 1), ("band-e", 3), ("band-m", 2)):
        way = _way(chart, ((row[0], row[place]) for row in chart.band))
        drawn += [element("path", cls=one, d=f"M{way}", vector_effect="non-scaling-stroke")
                  for one in ("band-h", cls) if chart.band]
    return "".join(drawn)


def _way(chart: Scatter, points: Iterable[tuple[float, float]]) -> str:
    return "L".join(f"{10 * chart.x(x):.1f} {level(chart.y, y, 0, PLOT):.1f}" for x, y in points)


def _diagonal(chart: Scatter) -> str:
    """y = x, from where both scales begin to where the first of them ends."""
    low, high = max(chart.x.low, chart.y.low), min(chart.x.high, chart.y.high)
    if not chart.diagonal or low >= high:
        return ""
    top, bottom = HEAD, HEAD + PLOT
    ends = [(chart.x(at), level(chart.y, at, top, bottom)) for at in (low, high)]
    line = element("line", cls="equal", x1=percent(ends[0][0]), y1=f"{ends[0][1]:.1f}",
                   x2=percent(ends[1][0]), y2=f"{ends[1][1]:.1f}")
    side = "end" if ends[1][0] > 60 else "start"
    name = element("text", chart.diagonal, cls="equal-t", x=percent(ends[1][0]),
                   y=f"{ends[1][1]:.1f}", dx="-1.2em", dy=".3em", text_anchor=side)
    return line + name


def _this(chart: Scatter) -> str:
    if chart.this is None:
        return ""
    top, bottom = HEAD, HEAD + PLOT
    share = chart.x(chart.this[0])
    ends = [level(chart.y, end, top, bottom) for end in chart.whisker or ()]
    line = element("line", cls="this-w", x1=percent(share), x2=percent(share), y1=f"{ends[0]:.1f}",
                   y2=f"{ends[1]:.1f}") if ends else ""
    return line + this_unit(share, level(chart.y, chart.this[1], top, bottom))
