"""How output voltages give way under load: curves of ports and units over the current."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np

from .axes import Axis, linear_axis, plain
from .curves import (
    WIDTHS,
    box,
    drawing,
    edge_anchor,
    heading,
    level_axis,
    levels,
    line,
    path_data,
    text,
)
from .lanes import letter
from .markup import element, escape, percent, pinned

HEAD, PLOT, BETWEEN, FOOT = 24, 200, 18, 28          # px
LETTER = 15              # px between two letters that would else overlap
MOST_MARKS = 12          # of the points of a curve that get a mark
SHAPES = (               # of 8 px, about their middle; open and filled in turn
    "M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z", "M-3.5-3.5h7v7h-7z", "M0-4.5l4.5 8h-9z",
    "M0-5l5 5l-5 5l-5-5z", "M-4-4l8 8M-4 4l8-8", "M-5 0h10M0-5v10",
)


@dataclass(frozen=True, slots=True)
class LoadCurve:
    label: str                                      # unit, port and the voltage that it was set to
    points: tuple[tuple[float, float], ...]         # (A, V), by rising current
    href: str = ""                                  # to its log
    name: str = ""                                  # "A2"; "" for the letter of its place


@dataclass(frozen=True, slots=True)
class Band:
    """What a voltage may be under load, by a rule that the label names."""

    low: float                # V
    high: float
    label: str


@dataclass(frozen=True, slots=True)
class LoadCurves:
    key: str                  # unique on the page
    title: str
    says: str
    curves: tuple[LoadCurve, ...]
    bands: tuple[Band, ...] = ()
    with_power: bool = True   # a second panel: V·I over I


def load_curves(chart: LoadCurves, width: int | None = None) -> str:
    """The drawing; each curve ends in its letter, and `load_curve_table` gives the same in rows."""
    currents = [amperes for curve in chart.curves for amperes, _ in curve.points]
    across = linear_axis(0, max(currents, default=1.0) * 1.08 or 1.0, 6)
    panels = [("Output voltage, V", [curve.points for curve in chart.curves], chart.bands)]
    if chart.with_power:
        panels.append(("Output power, W", [_powers(curve) for curve in chart.curves], ()))
    height = len(panels) * (HEAD + PLOT + BETWEEN) + FOOT - BETWEEN
    names = curve_names(chart.curves)
    drawn = [_panel(head, sets, names, bands, across, i * (HEAD + PLOT + BETWEEN))
             for i, (head, sets, bands) in enumerate(panels)]
    return drawing(chart.key, chart.title, chart.says, "".join(drawn) + _foot(across, height),
                   height, width)


def load_curve_table(caption: str, curves: Sequence[LoadCurve],
                     volts_text: Callable[[float], str]) -> str:
    """Each curve a row: its letter and label, and its voltage at common currents.

    Between two readings the voltage is interpolated; beyond the last one it is not known.
    `volts_text` prints a voltage.
    """
    most = max((amperes for curve in curves for amperes, _ in curve.points), default=1.0)
    currents = linear_axis(0, most or 1.0, 6).ticks
    head = element("tr", element("th", "Curve", scope="col"), *(
        element("th", f"{plain(amperes)}\u202fA", scope="col", cls="r") for amperes in currents))
    rows = [_row(name, curve, currents, volts_text)
            for name, curve in zip(curve_names(curves), curves, strict=True)]
    return element("table", element("caption", escape(caption)), element("thead", head),
                   element("tbody", *rows), cls="log-steps")


def curve_names(curves: Sequence[LoadCurve]) -> list[str]:
    """What each curve is called in the drawing."""
    return [curve.name or letter(i) for i, curve in enumerate(curves)]


def voltage_at(curve: LoadCurve, amperes: float) -> float:
    """Between the readings beside it; NaN outside what was recorded [V]."""
    known = [point for point in curve.points if not isnan(point[1])]
    if not known:
        return float("nan")
    x, y = zip(*known, strict=True)
    return float(np.interp(amperes, x, y, left=np.nan, right=np.nan))


def _row(key, curve, currents, volts_text):
    name = escape(f"{key}: {curve.label}")
    label = element("a", name, href=curve.href) if curve.href else name
    known = [voltage_at(curve, amperes) for amperes in currents]
    return element("tr", element("th", label, scope="row", translate="no"), *(
        element("td", "not recorded" if isnan(volts) else escape(volts_text(volts)), cls="r num")
        for volts in known))


def _powers(curve):
    return tuple((amperes, amperes * volts) for amperes, volts in curve.points)


def _panel(head, sets, names, bands, across, top):
    values = [value for points in sets for _, value in points]
    level = level_axis([*values, *(end for band in bands for end in (band.low, band.high))], 6)
    plot = top + HEAD
    lines = "".join(line(path_data(points, across, level, PLOT), i)
                    for i, points in enumerate(sets))
    marks = "".join(_marks(points, i, across, level, plot) for i, points in enumerate(sets))
    return (heading(head, top + 15) + "".join(_band(band, level, plot) for band in bands)
            + levels(level, plot, PLOT) + box(lines, plot, PLOT) + marks
            + _letters(sets, names, across, level, plot))


def _band(band, level, top):
    high, low = (top + PLOT * (1 - level(end) / 100) for end in (band.high, band.low))
    edges = "".join(
        element("line", cls="log-band-edge", x1=0, x2="100%", y1=f"{y:.1f}", y2=f"{y:.1f}",
                stroke="currentColor", stroke_dasharray="1 3") for y in (high, low))
    wash = element("rect", cls="log-band", width="100%", y=f"{high:.1f}",
                   height=f"{max(low - high, 0.5):.1f}", fill="currentColor", fill_opacity=".08")
    return wash + edges + text(band.label, 100, high - 4 if high > top + 14 else low + 14, "end",
                               "axis-t log-over")


def _marks(points, index, across, level, top):
    known = [point for point in points if not isnan(point[1])]
    every = -(-len(known) // MOST_MARKS) or 1
    shape = SHAPES[index % len(SHAPES)]
    filled = index // len(SHAPES) % 2 == 1
    glyph = element("path", d=shape, cls="log-mark", stroke="currentColor",
                    stroke_width=WIDTHS[0], fill="currentColor" if filled else "none")
    return "".join(
        pinned(across(x), glyph, f"{top + PLOT * (1 - level(y) / 100):.1f}")
        for x, y in known[::every])


def _letters(sets, names, across, level, top):
    """Beside the last point of each curve; letters that would overlap move apart, down."""
    ends = []
    for name, points in zip(names, sets, strict=True):
        known = [point for point in points if not isnan(point[1])]
        if known:
            x, y = known[-1]
            ends.append((top + PLOT * (1 - level(y) / 100) + 4, across(x), name))
    drawn: list[str] = []
    taken: list[tuple[float, float]] = []
    for y, x, name in sorted(ends):
        while any(abs(x - other) < 5 and abs(y - at) < LETTER for other, at in taken):
            y += 1
        taken.append((x, y))
        drawn.append(element("text", name, x=percent(x), dx="9", y=f"{y:.1f}",
                             cls="log-letter log-over", font_weight="bold"))
    return "".join(drawn)


def _foot(across: Axis, height: float) -> str:
    labels = [plain(tick) for tick in across.ticks]
    labels[-1] += "\u202fA"
    return "".join(
        text(label, across(tick), height - 8, edge_anchor(across(tick)), "axis-t")
        for label, tick in zip(labels, across.ticks, strict=True))
