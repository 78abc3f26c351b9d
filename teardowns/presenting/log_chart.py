"""A log for its chart: the drawing, the same as a table, and the numbers that a script asks for."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import isfinite, isnan

import numpy as np
from django.utils.safestring import mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.figures.lanes import letter
from teardowns.figures.log_chart import LogChart, Marking, Panel, Trace, log_chart
from teardowns.figures.time_axis import time_ticks
from teardowns.logs.channels import Channel, Channels
from teardowns.logs.extracted import Extracted, Result, Told, Unread
from teardowns.logs.roles import ROLES
from teardowns.logs.steps import Range, steps_for_table
from teardowns.logs.windows import rows_between, window, windows, with_neighbours
from teardowns.reading.printing import UNKNOWN, print_quantity

BUCKETS = 400            # of the drawing, wide enough for paper
POINTS = (16, 16_000)    # fewest and most that one request gets
STEPS = 13               # edges of the table's rows, at most
LONGEST = 32             # characters of a heading; the file has the whole of it
# Roles that share a panel; every other role has its own.
TOGETHER = {
    "output_current": "Output current", "set_current": "Output current",
    "temperature": "Temperature", "ambient_temperature": "Temperature",
}


@dataclass(frozen=True, slots=True)
class SpanRow:
    """One result beside the chart: the element reads letter, start and end."""

    letter: str
    label: str
    start: str                # s, as a number for a machine
    end: str
    place: str                # "12.0 s to 14.5 s"


@dataclass(frozen=True, slots=True)
class ChartTable:
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]     # as strings; the first cell heads its row


@dataclass(frozen=True, slots=True)
class ChartPart:
    """What `_log_chart.html` prints inside the element."""

    name: str
    drawing: str              # markup
    table: ChartTable
    spans: tuple[SpanRow, ...]


def chart_part(key: str, name: str, channels: Channels, results: Sequence[Result]) -> ChartPart:
    drawing = log_chart(log_figure(key, name, channels, results))
    return ChartPart(name, mark_safe(drawing), chart_table(channels), tuple(span_rows(results)))


def panel_of(channel: Channel) -> str:
    """The title of the panel that a channel is drawn in."""
    role = channel.column.role
    return TOGETHER.get(role) or _capitalised(ROLES[role].label)


def label_of(channel: Channel) -> AsWritten:
    """What a channel is called beside others, in the reader's language: its role, and the file's
    heading, as it stands there, where it helps.
    """
    role, heading = ROLES[channel.column.role], channel.column.label
    called = _capitalised(said(role.label))
    return AsWritten(f"{called} ({_shortened(heading)})" if role.several and heading else called)


def log_figure(key: str, title: str, channels: Channels, results: Iterable[Result]) -> LogChart:
    """The whole log, thinned to what paper can show."""
    start, end = _ends(channels)
    panels: dict[str, list[Channel]] = {}
    for channel in channels.channels:
        panels.setdefault(panel_of(channel), []).append(channel)
    drawn = tuple(
        Panel(name, ROLES[group[0].column.role].unit, tuple(
            Trace(label_of(channel), window(channels.time, channel.values, start, end, BUCKETS))
            for channel in group))
        for name, group in panels.items())
    return LogChart(key, title, _says(channels, start, end), start, end, drawn,
                    tuple(Marking(r.label, r.start, r.end) for r in placed(results)))


def placed(results: Iterable[Result]) -> list[Extracted | Told]:
    """The results that stand somewhere in the log, in the order in which they get their letters."""
    return [result for result in results if not isinstance(result, Unread)]


def span_rows(results: Iterable[Result]) -> list[SpanRow]:
    return [
        SpanRow(letter(i), result.label, repr(float(result.start)), repr(float(result.end)),
                _between(result.start, result.end))
        for i, result in enumerate(placed(results))]


def chart_table(channels: Channels) -> ChartTable:
    """Lowest, mean and highest of each channel in some ten round steps of time."""
    start, end = _ends(channels)
    ticks = time_ticks(start, end, STEPS)
    inner = [at for at in ticks.at if start < at < end]
    heads = ["From", *(AsWritten(f"{label_of(channel)}: {said('lowest, mean, highest')}")
                       for channel in channels.channels)]
    units = [ROLES[channel.column.role].unit for channel in channels.channels]
    rows = [
        (print_quantity(step.start, "s", digits=4),
         *(_range(found, unit) for found, unit in zip(step.ranges, units, strict=True)))
        for step in steps_for_table(channels, (start, *inner, end))]
    return ChartTable(tuple(heads), tuple(rows))


def window_json(channels: Channels, start: float, end: float, points: int) -> dict:
    """What the chart asks for while one zooms: at most `points` rows, null where a cell is blank.

    `all` says that the rows are every sample of the span, not a choice of them; `pauses` are the
    rows that are none, and break the lines where the log was not taken.
    """
    points = min(max(points, POINTS[0]), POINTS[1])
    columns = tuple(channel.values for channel in channels.channels)
    rows = with_neighbours(rows_between(channels.time, start, end), len(channels.time))
    buckets = max(points // (2 * max(len(columns), 1)), POINTS[0] // 4)
    shown = windows(channels.time, columns, rows, buckets)
    first, last = _ends(channels)
    return {
        "from": start, "to": end, "first": first, "last": last, "rows": len(channels.time),
        "all": shown.whole, "time": shown.time.tolist(),
        "pauses": shown.marks.tolist(),
        "channels": [_channel(channel, column)
                     for channel, column in zip(channels.channels, shown.columns, strict=True)],
    }


def _channel(channel: Channel, values: np.ndarray) -> dict:
    return {"label": label_of(channel), "panel": panel_of(channel),
            "unit": ROLES[channel.column.role].unit, "step": channel.step,
            "values": [value if isfinite(value) else None for value in values.tolist()]}


def _ends(channels: Channels) -> tuple[float, float]:
    time = channels.time
    return (float(time[0]), float(time[-1])) if len(time) else (0.0, 0.0)


def _says(channels: Channels, start: float, end: float) -> AsWritten:
    """What the drawing shows, in sentences: each channel with its range over the whole log."""
    (step,) = steps_for_table(channels, (start, end))
    spans = [
        f"{label_of(channel)}: {said(_lowest_to_highest(found, channel))}."
        for channel, found in zip(channels.channels, step.ranges, strict=True)]
    return AsWritten(" ".join([said(f"{step.rows} rows, {_between(start, end)}."), *spans]))


def _lowest_to_highest(found: Range | None, channel: Channel) -> str:
    unit = ROLES[channel.column.role].unit
    if found is None:
        return "nothing recorded"
    return f"{print_quantity(found.lowest, unit)} to {print_quantity(found.highest, unit)}"


def _range(found: Range | None, unit: str) -> str:
    if found is None:
        return "nothing recorded"
    numbers: Sequence[float] = (found.lowest, found.mean, found.highest)
    return ", ".join(print_quantity(number, unit, digits=4) for number in numbers)


def _between(start: float, end: float) -> str:
    if isnan(start) or isnan(end):
        return UNKNOWN
    if start == end:
        return f"at {print_quantity(start, 's', digits=4)}"
    return f"{print_quantity(start, 's', digits=4)} to {print_quantity(end, 's', digits=4)}"


def _shortened(heading: str) -> str:
    return heading if len(heading) <= LONGEST else f"{heading[:LONGEST - 1].rstrip()}…"


def _capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]
