"""A log as it is printed: panels over one axis of time, and where each result was read."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from teardowns.logs.windows import Window

from .axes import Axis
from .curves import (
    box,
    drawing,
    edge_anchor,
    heading,
    legend_entry,
    level_axis,
    levels,
    line,
    path_data,
    text,
)
from .lanes import Lettered, lettered
from .markup import element, percent
from .time_axis import TimeTicks, time_ticks

LANE, HEAD, LEGEND, PLOT, BETWEEN, FOOT = 22, 22, 18, 120, 14, 26      # px
NARROWEST = 32           # characters in a line


@dataclass(frozen=True, slots=True)
class Trace:
    label: str
    window: Window


@dataclass(frozen=True, slots=True)
class Panel:
    title: str
    unit: str
    traces: tuple[Trace, ...]


@dataclass(frozen=True, slots=True)
class Marking:
    """A span of the log that a result was read from; its letter is its place in the list."""

    label: str
    start: float              # s
    end: float                # s


@dataclass(frozen=True, slots=True)
class LogChart:
    key: str                  # unique on the page
    title: str
    says: str                 # what is to be seen, for those who do not see it
    start: float              # s
    end: float                # s
    panels: tuple[Panel, ...]
    markings: tuple[Marking, ...] = ()


def log_chart(chart: LogChart, width: int | None = None) -> str:
    """The drawing; a width in pixels makes it a file of its own, readable without stylesheets."""
    time = Axis(chart.start, chart.end if chart.end > chart.start else chart.start + 1, ())
    marks = lettered([(time(m.start), time(m.end)) for m in chart.markings])
    top = LANE * (1 + max((mark.lane for mark in marks), default=-1))
    *tops, bottom = _tops(chart.panels, top)
    ticks = _ticks(chart.start, chart.end)
    drawn = [_uprights(time, ticks, top, bottom)]
    drawn += [_mark(mark, bottom) for mark in marks]
    drawn += [_panel(panel, time, at) for panel, at in zip(chart.panels, tops, strict=True)]
    drawn.append(_time_labels(time, ticks, bottom + FOOT))
    return drawing(chart.key, chart.title, chart.says, "".join(drawn), bottom + FOOT, width)


def _ticks(start: float, end: float) -> TimeTicks:
    """As many as stand beside each other on the narrowest screen."""
    for most in range(8, 2, -1):
        ticks = time_ticks(start, end, most)
        if sum(len(label) + 2 for label in ticks.labels) <= NARROWEST:
            break
    return ticks


def _tops(panels: Sequence[Panel], top: float) -> list[float]:
    """Where each panel begins, and where the last one ends."""
    tops = [float(top)]
    for panel in panels:
        tops.append(tops[-1] + HEAD + LEGEND * _legend_lines(panel) + PLOT + BETWEEN)
    return tops


def _legend_lines(panel):
    return len(panel.traces) if len(panel.traces) > 1 else 0


def _panel(panel: Panel, time: Axis, top: float) -> str:
    values = [float(v) for trace in panel.traces for v in trace.window.values]
    axis = level_axis(values)
    plot = top + HEAD + LEGEND * _legend_lines(panel)
    lines = "".join(
        line(path_data(zip(trace.window.time.tolist(), trace.window.values.tolist(), strict=True),
                       time, axis, PLOT), index)
        for index, trace in enumerate(panel.traces))
    return (heading(f"{panel.title}, {panel.unit}", top + 14) + _legend(panel, top + HEAD)
            + levels(axis, plot, PLOT) + box(lines, plot, PLOT))


def _legend(panel, top):
    if not _legend_lines(panel):
        return ""
    return "".join(legend_entry(index, trace.label, top + LEGEND * index + 8)
                   for index, trace in enumerate(panel.traces))


def _uprights(time: Axis, ticks: TimeTicks, top: float, bottom: float) -> str:
    return "".join(
        element("line", cls="grid", x1=percent(time(at)), x2=percent(time(at)), y1=f"{top:g}",
                y2=f"{bottom:g}", stroke="currentColor", stroke_opacity=".35")
        for at in ticks.at)


def _time_labels(time: Axis, ticks: TimeTicks, height: float) -> str:
    """Numbers under the panels, the unit on the last of them."""
    last = len(ticks.at) - 1
    return "".join(
        text(f"{label}\u202f{ticks.unit}" if i == last else label, time(at), height - 8,
             edge_anchor(time(at)), "axis-t")
        for i, (at, label) in enumerate(zip(ticks.at, ticks.labels, strict=True)))


def _mark(mark: Lettered, bottom: float) -> str:
    """A bar over the span with its letter; its ends run down through the panels."""
    level = f"{mark.lane * LANE + 18:g}"
    ends = "".join(
        element("line", cls="log-end", x1=percent(share), x2=percent(share), y1=level,
                y2=f"{bottom:g}", stroke="currentColor", stroke_dasharray="2 4")
        for share in dict.fromkeys((mark.start, mark.end)))
    bar = element("line", cls="log-span", x1=percent(mark.start), x2=percent(mark.end),
                  y1=level, y2=level, stroke="currentColor", stroke_width="3",
                  stroke_linecap="square")
    return ends + bar + text(mark.text, mark.middle, mark.lane * LANE + 13, "middle", "log-letter",
                             font_weight="bold")
