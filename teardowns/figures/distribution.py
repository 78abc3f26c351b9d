"""How one quantity is spread over many units: dots in stacks, or bars where there are too many."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis, upright
from .curves import text
from .markup import element, escape, percent
from .plane import FOOT, Point, field, linked_point, scale_below, this_value

PLOT, LEAST, BOX, NAME = 150, 60, 26, 24     # px: stacks, quartiles under them, the name above
LANE = 18                          # px, of the names of marks, above all panels
DOT = 9.0                          # px from dot to dot


@dataclass(frozen=True, slots=True)
class Quarters:
    """Five values of the quantity, None where there are too few units for them."""

    low: float | None
    quarter: float | None
    median: float | None
    three_quarters: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Panel:
    """counts : units in each bin; stacks : the same units as points, where each is drawn;
    apart : units at the ends that are named though the rest are bars"""

    name: str                        # "per watt claimed, 31 units"
    counts: Sequence[int]
    stacks: Sequence[Sequence[Point]]
    apart: Sequence[Point]
    quarters: Quarters
    this: float | None = None


@dataclass(frozen=True, slots=True)
class Distribution:
    x: Axis
    x_name: str
    panels: Sequence[Panel]
    marks: Sequence[tuple[float, str]] = ()     # values that matter, as the requirement


def distribution(chart: Distribution) -> str:
    plot = _height(chart.panels)
    each, top = NAME + plot + BOX, LANE * len(chart.marks)
    bottom = top + each * len(chart.panels)
    drawn = [scale_below(chart.x, chart.x_name, top + NAME, bottom), _marks(chart, bottom)]
    for index, panel in enumerate(chart.panels):
        drawn.append(_panel(chart.x, panel, top + index * each, plot))
    return field("".join(drawn), bottom + FOOT, "spread")


def _height(panels: Sequence[Panel]) -> float:
    """As high as the tallest stack of dots; where there are bars alone, all there is."""
    stacks = [len(stack) for panel in panels for stack in panel.stacks]
    return min(PLOT, max(LEAST, DOT * (max(stacks) + 2))) if stacks else PLOT


def _marks(chart: Distribution, bottom: float) -> str:
    """Each with its name on a line of its own, so that two values close together can be read."""
    drawn = []
    for lane, (value, name) in enumerate(chart.marks):
        share = chart.x(value)
        drawn.append(upright("req", share, lane * LANE + 2, f"{bottom:g}"))
        side, shift = ("end", "-.5em") if share > 60 else ("start", ".5em")
        drawn.append(text(name, share, lane * LANE + 13, side, "req-t", dx=shift))
    return "".join(drawn)


def _panel(axis: Axis, panel: Panel, top: float, plot: float) -> str:
    floor = top + NAME + plot
    base = element("line", cls="floor", x1=0, x2="100%", y1=f"{floor:g}", y2=f"{floor:g}")
    name = element("text", escape(panel.name), cls="axis-n", x=-46, y=f"{top + 14:g}")
    body = _dots(panel, floor, plot) if panel.stacks else _bars(panel, floor, plot)
    rug = "".join(linked_point(p, axis(p.x), floor + 6, 3) for p in panel.apart)
    this = "" if panel.this is None else this_value(axis(panel.this), top + NAME, floor + BOX)
    return name + body + base + rug + _quarters(axis, panel.quarters, floor + BOX / 2 + 3) + this


def _dots(panel: Panel, floor: float, plot: float) -> str:
    """Dots of a bin stand over its middle, so that two of one value do not hide each other."""
    tallest = max(map(len, panel.stacks), default=1)
    step = min(DOT, plot / max(tallest, 1))
    wide = 100 / len(panel.stacks)
    return "".join(
        linked_point(point, (index + 0.5) * wide, floor - step * (at + 0.5), min(4, step * 0.45))
        for index, stack in enumerate(panel.stacks) for at, point in enumerate(stack))


def _bars(panel: Panel, floor: float, plot: float) -> str:
    most = max(panel.counts, default=0) or 1
    wide = 100 / max(len(panel.counts), 1)
    return "".join(
        element("rect", cls="bar", x=percent(index * wide + 0.08), width=percent(wide - 0.16),
                y=f"{floor - plot * count / most:.1f}", height=f"{plot * count / most:.1f}")
        for index, count in enumerate(panel.counts) if count)


def _quarters(axis: Axis, found: Quarters, y: float) -> str:
    """A thin line for nine units in ten, a thick one for the middle half, a ring at the median."""
    if found.median is None or found.quarter is None or found.three_quarters is None:
        return ""
    thin = ""
    if found.low is not None and found.high is not None:
        thin = _line("whole", axis(found.low), axis(found.high), y)
    ring = element("circle", cls="med", cx=percent(axis(found.median)), cy=f"{y:.1f}", r=4)
    return thin + _line("cap", axis(found.quarter), axis(found.three_quarters), y) + ring


def _line(cls: str, start: float, end: float, y: float) -> str:
    return element("line", cls=cls, x1=percent(start), x2=percent(end), y1=f"{y:.1f}",
                   y2=f"{y:.1f}")
