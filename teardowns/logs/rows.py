"""Lines of a log, one by one and cell by cell: what they hold, or where they do not hold it."""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from teardowns.logs.blocks import line_too_long
from teardowns.logs.cells import BLANKS, number, seconds
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.limits import LONGEST_CELL, LONGEST_LINE
from teardowns.logs.plain_numbers import plain_column
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import TIME
from teardowns.logs.separators import cells_of

Row = tuple[int, Sequence[str]]           # line number, cells
_CLOCK = re.compile("((?:.*[ T])?[0-9]{1,4}:[0-9]{2}):([0-5][0-9](?:[.,][0-9]{1,12})?)")
_RUN = re.compile("[ \t]+")
_NOUGHT, _MARK = "\0", "\ufeff"
TWO_LOGS = "Save each of them as a file of its own, or delete what stands from here on."


def read_rows(text: str, line: int, layout: Layout, is_last: bool = True,
              ) -> tuple[np.ndarray, list[np.ndarray]]:
    """(n,) line numbers and, for each used column, its (n,) numbers as written, NaN = blank.

    text : lines, "\\n" at their ends, of which `line` is the first; unless is_last, a line that
    is not empty follows. Raises RefusedLog with the place of the first thing that cannot be read.
    """
    rows, torn = _even_rows(text, line, layout), None
    if rows is None:
        rows, torn = _careful_rows(text, line, layout, is_last)
    columns = _columns(rows, layout)
    if torn:                              # after the cells of the lines above it
        raise torn
    return np.array([line for line, _ in rows], int), columns


def _even_rows(text: str, first: int, layout: Layout) -> list[Row] | None:
    """The rows of a text of which nothing but the cells themselves can be wrong; much faster."""
    separator, width = layout.separator, len(layout.columns)
    if separator == " " or any(mark in text for mark in ('"', _NOUGHT, _MARK)):
        return None
    lines = text.removesuffix("\n").split("\n")
    rows = [line.split(separator) for line in lines]
    nothing = BLANKS + separator
    if (set(map(len, rows)) != {width} or max(map(len, lines)) > LONGEST_CELL
            or not all(line.strip(nothing) for line in lines)):
        return None
    return list(enumerate(rows, first))


def _careful_rows(text: str, first: int, layout: Layout, is_last: bool,
                  ) -> tuple[list[Row], RefusedLog | None]:
    """The rows above the first line that is no row, and why that is none."""
    rows: list[Row] = []
    try:
        rows.extend(_rows(text, first, layout, is_last))
    except RefusedLog as refused:
        return rows, refused
    return rows, None


def _rows(text: str, first: int, layout: Layout, is_last: bool) -> Iterator[Row]:
    keeps_blanks = layout.time_style == "interval"
    empty = None
    lines = text.removesuffix("\n").split("\n") if text else []
    for line, written in enumerate(lines, first):
        if not written.strip(BLANKS + "\f"):
            empty = line
            continue
        if empty and keeps_blanks:
            raise _empty(empty)
        cells = _cells(written, line, layout)
        if keeps_blanks or any(cell.strip(BLANKS) for cell in cells):
            yield line, cells
    if empty and keeps_blanks and not is_last:
        raise _empty(empty)


def _empty(line):
    return RefusedLog("empty_line", "Without a column of time nobody can say whether a reading is "
                      "missing in this empty line: delete the line, or write a separator for each "
                      "blank cell.", line)


def _cells(written: str, line: int, layout: Layout) -> Sequence[str]:
    if _NOUGHT in written:
        raise RefusedLog("zero_bytes", "The line holds zero bytes, as a file does that was not "
                         "written to its end. Delete what stands from here on, or export again.",
                         line, _place_of(_NOUGHT, written, layout))
    if _MARK in written:
        raise RefusedLog("mark_inside", "A byte order mark stands here: two files were joined. "
                         + TWO_LOGS, line, _place_of(_MARK, written, layout))
    if len(written) > LONGEST_LINE:
        raise line_too_long(line)
    cells = _split(written, line, layout.separator)
    if len(cells) == len(layout.columns) + 1 and not cells[-1].strip(BLANKS):
        cells = cells[:-1]
    if len(cells) != len(layout.columns):
        raise _ragged(cells, line, layout)
    if max(map(len, cells)) > LONGEST_CELL:
        place = next(i for i, cell in enumerate(cells, 1) if len(cell) > LONGEST_CELL)
        raise RefusedLog("cell_too_long", f"The cell is longer than {LONGEST_CELL} characters: "
                         "shorten it, or export numbers alone.", line, place)
    return cells


def _place_of(character, written, layout):
    return len(_split_bare(written[:written.index(character)], layout.separator))


def _split(written: str, line: int, separator: str) -> Sequence[str]:
    try:
        return cells_of(written, separator)
    except RefusedLog as refused:
        before = written[:written.rindex('"')]
        raise replace(refused, line=line, column=len(_split_bare(before, separator))) from None


def _split_bare(written, separator):
    return _RUN.split(written.strip(BLANKS)) if separator == " " else written.split(separator)


def _ragged(cells, line, layout):
    found, wanted = len(cells), len(layout.columns)
    if not any(_reads(partial(number, layout=layout), cell) for cell in cells):
        return _text(cells, line, layout)
    if found < wanted:
        return RefusedLog("too_few_cells", f"The line has {found} cells and the table {wanted} "
                          "columns. Complete the line, or delete it if the log was cut off here.",
                          line, found + 1)
    return RefusedLog("too_many_cells", f"The line has {found} cells and the table {wanted} "
                      "columns. Check the separator and the decimal mark.", line, wanted + 1)


def _text(cells, line, layout):
    words = [cell.strip(BLANKS) for cell in cells]
    labels = [column.label.strip(BLANKS) for column in layout.columns]
    if any(labels) and words == labels:
        return RefusedLog("second_log", "The headings stand here once more: a second log was "
                          f"pasted below the first. {TWO_LOGS}", line)
    return RefusedLog("text_among_rows", "The line holds words and no numbers. If it is a closing "
                      "or a comment line of the instrument, delete it.", line)


def _columns(rows: list[Row], layout: Layout) -> list[np.ndarray]:
    """Raises for the cell of the topmost line where several cannot be read."""
    columns, refusals = [], []
    for column in layout.used():
        cells = [cells[column.index] for _, cells in rows]
        try:
            columns.append(_column(cells, column, layout))
        except _AtRow as refused:
            refusals.append((refused.row, column.index, refused.why))
    if refusals:
        row, index, why = min(refusals, key=lambda refusal: refusal[:2])
        line, cells = rows[row]
        raise _placed(line, cells, index, why, layout)
    return columns


class _AtRow(Exception):
    def __init__(self, row, why):
        self.row, self.why = row, why


def _column(cells, column, layout):
    if _is_clock(column, layout):
        values = _each(cells, _clock_reader(layout))
    else:
        plain = plain_column(cells, layout)
        values = _each(cells, partial(number, layout=layout)) if plain is None else plain
    if column.role == TIME and np.isnan(values).any():
        raise _AtRow(int(np.isnan(values).argmax()), RefusedLog(
            "time_missing", "The time of this row is blank: complete it, or delete the row."))
    return values


def _clock_reader(layout: Layout) -> Callable[[str], float]:
    """`seconds`, which is asked once a minute of the log: what follows are plain seconds."""
    minutes = {}

    def read(cell):
        parts = _CLOCK.fullmatch(cell)
        if not parts:
            return seconds(cell, layout)
        start, rest = parts.groups()
        if start not in minutes:
            minutes[start] = seconds(f"{start}:00", layout)
        return minutes[start] + float(rest.replace(",", "."))

    return read


def _each(cells: Sequence[str], read: Callable[[str], float]) -> np.ndarray:
    values = np.empty(len(cells))
    for row, cell in enumerate(cells):
        try:
            values[row] = read(cell)
        except RefusedLog as refused:
            raise _AtRow(row, refused) from None
    return values


def _placed(line: int, cells: Sequence[str], index: int, why: RefusedLog,
            layout: Layout) -> RefusedLog:
    """The refusal of one cell, or of its line if none of its cells can be read."""
    used = [column for column in layout.used() if cells[column.index].strip(BLANKS)]
    if len(used) > 1 and not any(_reads(_reader(column, layout), cells[column.index])
                                 for column in used):
        return _text(cells, line, layout)
    return replace(why, line=line, column=index + 1)


def _is_clock(column: LogColumn, layout: Layout) -> bool:
    return column.role == TIME and layout.time_style == "clock"


def _reader(column, layout):
    return partial(seconds if _is_clock(column, layout) else number, layout=layout)


def _reads(read, cell):
    try:
        return not np.isnan(read(cell))
    except RefusedLog:
        return False
