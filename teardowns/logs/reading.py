"""A log's text → channel files, a slice at a time and with no more than a block in memory."""
from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, BinaryIO

import numpy as np

from teardowns.logs import limits
from teardowns.logs.blocks import BLOCK, Block, next_block
from teardowns.logs.channel_files import Appending, holds, note_digits, value_columns
from teardowns.logs.clock_times import has_date
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.plain_numbers import plain_table
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import ROLES, TIME, UNITS
from teardowns.logs.rows import read_rows
from teardowns.logs.times import DAY, over_midnight, since_first, step_back

FIRST_ROWS = 200             # whose text shows how many decimals are written
_DIGITS = re.compile(r"[+-]?[0-9]*(?:\.([0-9]*))?(?:[eE]([+-]?[0-9]{1,2}))?")


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a log was read."""

    offset: int = 0           # bytes
    line: int = 0             # the last one read
    rows: int = 0
    last_time: float | None = None    # of the last row, in the unit of the column, days counted
    first_time: float | None = None   # of the first
    finished: bool = False
    size: int = 0             # bytes of the whole log

    @property
    def share(self) -> float:
        return self.offset / self.size if self.size else 1.0

    def to_json(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> Progress:
        return cls(**stored)


def read_slice(source: BinaryIO, size: int, layout: Layout, progress: Progress | None,
               folder: Path, most_bytes: int = 16 << 20) -> Progress:
    """Read on for about `most_bytes` and append to the files of `folder`.

    What lies there beyond `progress` is cut off first; where files are missing, reading begins
    anew, so look at the returned offset. Raises RefusedLog with line and column; then neither
    `progress` nor what it stands for has changed.
    """
    _check_limits(size, layout)
    if progress is None or not holds(folder, layout, progress.rows):
        progress = Progress(size=size)
    stop = min(size, progress.offset + most_bytes)
    with Appending(folder, layout, progress.rows) as files:
        while progress.offset < stop:
            block = next_block(source, progress.offset, progress.line + 1, size, layout.encoding,
                               min(BLOCK, stop - progress.offset))
            if not progress.rows:
                note_digits(folder, _written_digits(block, layout))
            progress = _read_block(block, layout, progress, files)
    if progress.offset == size:
        _check_whole(progress, layout)
        return replace(progress, finished=True)
    return progress


def _check_limits(size, layout):
    if size > limits.MOST_BYTES:
        raise RefusedLog("too_large", f"The log has {size / 1e6:.0f} MB, at most "
                         f"{limits.MOST_BYTES / 1e6:.0f} are read: export a part of it, or fewer "
                         "readings a second.")
    if len(layout.columns) > limits.MOST_COLUMNS:
        raise RefusedLog("too_many_columns", f"The table has {len(layout.columns)} columns, at "
                         f"most {limits.MOST_COLUMNS} are read: export only those that are needed, "
                         "or check the separator.", layout.first_line, limits.MOST_COLUMNS + 1)
    if _time_column(layout) is None and not (layout.interval or 0) > 0:
        raise RefusedLog("no_time", "No column gives the time: choose it, or state the time "
                         "between two rows.")


def _check_whole(progress, layout):
    if progress.rows < 2:
        raise RefusedLog("too_few_rows", "A log needs two rows of numbers at least: check in which "
                         "line they begin.", layout.first_line)
    if progress.last_time == progress.first_time:
        column = _time_column(layout)
        raise RefusedLog("time_stands_still", "All rows have the same time: choose another column "
                         "for it, or state the time between two rows.", layout.first_line,
                         None if column is None else column.index + 1)


def _time_column(layout: Layout) -> LogColumn | None:
    if layout.time_style == "interval":
        return None
    return next((column for column in layout.used() if column.role == TIME), None)


def _read_block(block: Block, layout: Layout, progress: Progress, files: Appending) -> Progress:
    block = _without_heading(block, layout.first_line)
    lines, columns = _numbers(block, layout)
    if progress.rows + len(lines) > limits.MOST_ROWS:
        raise RefusedLog("too_many_rows", f"At most {limits.MOST_ROWS:,} rows are read: export a "
                         "part of the log, or fewer readings a second.".replace(",", " ", 1),
                         int(lines[limits.MOST_ROWS - progress.rows]))
    read = replace(progress, offset=block.end, line=block.line + block.lines - 1,
                   rows=progress.rows + len(lines))
    if not len(lines):
        return read
    times, read = _times(block, layout, lines, columns, progress, read)
    files.append([times, *(_in_si(values, column)
                           for column, values in zip(layout.used(), columns, strict=True)
                           if column.role != TIME)])
    return read


def _without_heading(block, first_line):
    at, line = 0, block.line
    while line < first_line and at < len(block.text):
        at = block.text.find(b"\n", at) + 1 or len(block.text)
        line += 1
    return replace(block, text=block.text[at:], line=line)


def _written_digits(block, layout):
    """By column, the SI value of the last digit that the first rows write."""
    first = _without_heading(block, layout.first_line).text.split(b"\n", FIRST_ROWS)[:FIRST_ROWS]
    rows = [line.decode(block.encoding, "replace").split(
        None if layout.separator == " " else layout.separator) for line in first]
    found = {}
    for column in value_columns(layout):
        digits = [digit for row in rows if column.index < len(row)
                  and (digit := _digit_of(row[column.index], layout.decimal)) is not None]
        if digits:
            found[column.index] = min(digits) * abs(_unit(column)[0])
    return found


def _digit_of(cell, decimal):
    """ "2.000" ends in thousandths; None for what is no plain number."""
    match = _DIGITS.fullmatch(cell.strip(' "').replace(decimal, "."))
    if match is None:
        return None
    return 10.0 ** (int(match[2] or 0) - len(match[1] or ""))


def _numbers(block, layout):
    """(n,) line numbers, and (n,) numbers as written of each used column."""
    table = plain_table(block.text, layout) if layout.time_style != "clock" else None
    if table is not None:
        columns = [table[:, column.index] for column in layout.used()]
        time = _time_column(layout)
        if time is None or not np.isnan(table[:, time.index]).any():
            return block.line + np.arange(len(table)), columns
    text = block.text.decode(block.encoding, "replace")
    return read_rows(text, block.line, layout, block.is_last)


def _times(block, layout, lines, columns, before, read):
    """(n,) seconds from the first row of the log on, and how far time has come."""
    column = _time_column(layout)
    if column is None:
        times = np.arange(before.rows, read.rows) * layout.interval
        return times, replace(read, first_time=0.0, last_time=float(times[-1]))
    written = columns[layout.used().index(column)]
    if layout.time_style == "clock" and _is_clock_of_day(written, block, lines, layout, column):
        written = over_midnight(written, before.last_time)
    first = float(written[0]) if before.first_time is None else before.first_time
    if refused := step_back(written, first, before.last_time):
        raise replace(refused.why, line=int(lines[refused.row]), column=column.index + 1)
    times = (since_first(written, first) if layout.time_style == "clock"
             else _scaled(written - first, _unit(column)[0]))
    return times, replace(read, first_time=first, last_time=float(written[-1]))


def _is_clock_of_day(written, block, lines, layout, column):
    """Hours that were counted on, 25:00:00, pass no midnight, and dates neither."""
    if (written < 0).any() or (written >= DAY).any():
        return False
    first = block.text.split(b"\n", int(lines[0]) - block.line + 1)[int(lines[0]) - block.line]
    cells = first.decode(block.encoding, "replace").split(layout.separator)
    return column.index >= len(cells) or not has_date(cells[column.index].strip(' "'))


def _in_si(values, column):
    factor, offset = _unit(column)
    return _scaled(values + offset if offset else values, factor)


def _unit(column):
    unit = ROLES[column.role].unit
    return UNITS[unit][column.unit or unit]


def _scaled(values, factor):
    """4321 mA are 4.321 A to the last bit, which a product with 0.001 need not be."""
    if factor == 1.0:
        return values
    divisor = round(1 / factor)
    return values / divisor if divisor and abs(divisor * factor - 1) < 1e-12 else values * factor
