"""The head of a log → a proposal of how to read it, and questions where two readings are possible.

Nothing is guessed that a number depends on: what all rows of the head leave open is asked, and the
likeliest reading is proposed meanwhile. Answers settle questions and override what was found.
"""
from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from teardowns.logs.cell_kinds import BLANK, NUMBER
from teardowns.logs.column_roles import find_roles, find_units, role_choices
from teardowns.logs.decimal_marks import Marks, as_number, find_marks, thousands_of
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.limits import MOST_COLUMNS
from teardowns.logs.preamble import find_headings, find_interval, heading_cells
from teardowns.logs.questions import Choice, Question, settle, spaced
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import NOT_USED, ROLES, TIME
from teardowns.logs.seen_columns import SeenColumn, see_columns
from teardowns.logs.separators import (
    CHOICES,
    ONE_COLUMN,
    Record,
    Table,
    lay_table,
    records_of,
    tables_of,
)
from teardowns.logs.text_encoding import CODECS, HEAD, LEGACY, find_encoding, lines_of, text_of
from teardowns.logs.time_columns import Timing, find_time_column, is_guessed, read_timing

__all__ = ["Choice", "Proposal", "Question", "detect_layout", "signature"]

PREVIEW = 12              # rows that are shown beside the mapping
_SEPARATOR_LINE = re.compile(r'"?sep=(.)"?', re.IGNORECASE)
_NAMES = CHOICES | {ONE_COLUMN: "one"}
_SAYS = {"tab": "tabs", "semicolon": "semicolons", "bar": "bars", "comma": "commas",
         "blanks": "blanks", "one": "nothing: there is one column"}


@dataclass(frozen=True, slots=True)
class Proposal:
    layout: Layout
    questions: tuple[Question, ...]
    heading: tuple[str, ...]          # () = the file has none
    rows: tuple[tuple[int, tuple[str, ...]], ...]     # line, cells as text


def detect_layout(head: bytes, *, name: str = "", answers: Mapping[str, str] | None = None,
                  remembered: Layout | None = None) -> Proposal:
    """How the log that begins with head is to be read. RefusedLog where it cannot be.

    head: the first HEAD bytes, or the whole file where it is shorter. name: of the file, for
    messages. answers: value by field of a question; "role:<index>" and "unit:<index>" of any
    column override. remembered: the layout of an earlier log of this instrument.
    """
    answers = {field: answer for field, answer in (answers or {}).items() if answer}
    encoding, asked = _encoding(head, answers)
    lines = lines_of(text_of(head, encoding))
    if len(head) >= HEAD and len(lines) > 1:
        lines.pop()                       # cut off in the middle
    table, asked_separator = _table(lines, name, answers)
    headings = find_headings(table)
    columns = see_columns(table, headings)
    layout, questions = _lay_out(encoding, table, columns, remembered, answers)
    rows = tuple((row.line, row.cells[:len(columns)]) for row in table.rows[:PREVIEW])
    heading = tuple(column.label for column in columns) if headings.labels else ()
    return Proposal(layout, (*asked, *asked_separator, *questions), heading, rows)


def signature(proposal: Proposal) -> str:
    """What a layout is remembered by: separator and headings, with their units."""
    told = json.dumps([proposal.layout.separator, len(proposal.layout.columns),
                       list(proposal.heading)])
    return hashlib.sha256(told.encode()).hexdigest()[:32]


def _encoding(head: bytes, answers: Mapping[str, str]) -> tuple[str, tuple[Question, ...]]:
    found = find_encoding(head)
    if len(found) == 1 and answers.get("encoding") in CODECS & set(LEGACY):
        found = (answers["encoding"], *found)
    choices = [Choice(codec, LEGACY.get(codec, codec), _odd_words(head, codec)) for codec in found]
    return settle("encoding", "Which reading of the headings is right?", choices, answers)


def _odd_words(head: bytes, codec: str) -> str:
    """The first words of the file that are written with more than ASCII."""
    words = re.findall(r"[^\s,;|]+", head.decode(codec, "replace"))
    odd = (word[:40] for word in words if not word.isascii())
    return ", ".join(dict.fromkeys(islice(odd, 3)))


def _table(lines: Sequence[str], name: str, answers: Mapping[str, str],
           ) -> tuple[Table, tuple[Question, ...]]:
    told = _SEPARATOR_LINE.fullmatch(lines[0].strip(" ")) if lines else None
    records = records_of(["", *lines[1:]] if told else lines)
    forced = told[1] if told and told[1] in CHOICES else _answered_separator(answers)
    found = lay_table(records, forced) if forced else None
    tables = (found,) if found else tables_of(records)
    if not tables:
        raise RefusedLog("no_table", f"No table of numbers was found{f' in {name}' if name else ''}"
                         ". Export the readings as CSV: one line a reading, one column a channel.")
    table, asked = _choose(tables, answers)
    if table.width > MOST_COLUMNS + 1:    # one more may be a separator at the end of each line
        raise RefusedLog("too_many_columns", f"The table has {table.width} columns, at most "
                         f"{MOST_COLUMNS} are read: export only those that are needed.",
                         table.rows[0].line, MOST_COLUMNS + 1)
    _refuse_second_log(records, table)
    return _without_double_commas(table, answers, asked, bool(told))


def _answered_separator(answers: Mapping[str, str]) -> str:
    answer = answers.get("separator", "")
    return answer if answer in CHOICES else \
        next((separator for separator, word in _NAMES.items() if word == answer), "")


def _choose(tables: Sequence[Table], answers: Mapping[str, str],
            ) -> tuple[Table, tuple[Question, ...]]:
    """The table; between equals the heading decides, else the contributor."""
    fitting = [table for table in tables if _fits_heading(table, tables)]
    equals = fitting if len(fitting) == 1 else tables if tables[0].share else tables[:1]
    by_name = {_NAMES[table.separator]: table for table in equals}
    word, asked = settle("separator", "What separates the columns?", [
        Choice(word, _SAYS[word], " · ".join(table.rows[-1].cells[:8]))
        for word, table in by_name.items()], answers)
    return by_name[word], asked


def _fits_heading(table: Table, equals: Sequence[Table]) -> bool:
    if not table.before:
        return False
    text = table.before[-1].text
    if table.separator == ONE_COLUMN:
        return not any(other.separator in text for other in equals if other is not table)
    return table.separator in text and bool(heading_cells(text, table)) and \
        len(text.split(table.separator if table.separator != " " else None)) == table.width


def _without_double_commas(table: Table, answers: Mapping[str, str],
                           asked: tuple[Question, ...], told: bool,
                           ) -> tuple[Table, tuple[Question, ...]]:
    """Commas may separate and mark decimals at once; such a log cannot be read for sure."""
    rows = [_until_last_filled(row.cells) for row in table.rows]
    wholes = all(cell.strip("+-").isdigit() for row in rows for cell in row)
    width = max(map(len, rows))
    last = table.before[-1] if table.before else None
    count = len(last.text.strip(", ").split(",")) if last else 0
    if table.separator != "," or not wholes or width < 2 or count == width or told:
        return table, asked
    doubled = RefusedLog(
        "double_comma", "Commas seem to separate the columns and to mark decimals as well. Export "
        "with semicolons or tabs between the columns.", line=table.rows[0].line)
    if 1 < count < width <= 2 * count or answers.get("separator") == "both":
        raise doubled
    settled = asked or answers.get("separator") in {",", "comma"}
    if settled or width % 2 or min(map(len, rows)) < width:
        return table, asked
    row = rows[-1]
    pairs = " · ".join(",".join(pair) for pair in zip(row[::2], row[1::2], strict=True))
    _, asked = settle("separator", "What do the commas do?", [
        Choice("comma", "separate whole numbers", " · ".join(row)),
        Choice("both", "separate, and mark decimals too", pairs)], answers)
    return table, asked


def _until_last_filled(cells: Sequence[str]) -> Sequence[str]:
    return cells[:max((at for at, cell in enumerate(cells, 1) if cell), default=0)]


def _refuse_second_log(records: Sequence[Record], table: Table) -> None:
    """The line of headings that comes again further down starts a second log."""
    headings = {record.text for record in table.before[-2:]
                if len(re.findall(r"[^\W\d_]+", record.text)) >= 2}
    for record in records:
        if record.line > table.rows[0].line and record.text in headings:
            raise RefusedLog("second_log", "The headings come again here: two logs seem pasted "
                             "together. Add them as two recordings.", line=record.line)


def _lay_out(encoding: str, table: Table, columns: Sequence[SeenColumn],
             remembered: Layout | None, answers: Mapping[str, str],
             ) -> tuple[Layout, tuple[Question, ...]]:
    separator = table.separator
    if separator == ONE_COLUMN:
        separator = next(s for s in ";\t|" if not any(s in row.cells[0] for row in table.rows))
    interval = find_interval(table.before)
    told = answers
    if remembered and _is_like(remembered, separator, columns):
        answers = _as_answers(remembered, interval is not None) | dict(told)
    time = find_time_column(columns, interval, answers)
    decimal, thousands, asked_decimal = _decimal(columns, time, answers, told)
    timing = read_timing(time, decimal, interval, answers)
    roles, asked_roles = find_roles(columns, timing.column, decimal, answers)
    units, asked_units = find_units(columns, roles, decimal, answers)
    layout = Layout(encoding, separator, decimal, table.rows[0].line,
                    tuple(_log_column(column, roles, units, timing) for column in columns),
                    thousands, timing.style, timing.date_order, timing.interval)
    if remembered and _is_like(remembered, separator, columns):
        layout = replace(layout, columns=_with_places(layout.columns, remembered))
    return layout, (*asked_decimal, *_asked_time(time, answers), *asked_roles, *timing.questions,
                    *asked_units)


def _is_like(remembered: Layout, separator: str, columns: Sequence[SeenColumn]) -> bool:
    return remembered.separator == separator and [
        (c.index, c.label) for c in remembered.columns] == [(c.index, c.label) for c in columns]


def _as_answers(layout: Layout, has_interval: bool) -> dict[str, str]:
    """A remembered layout answers whatever this file leaves open."""
    told = {"decimal": layout.decimal, "date_order": layout.date_order}
    if layout.interval is not None and not has_interval:
        told["interval"] = repr(layout.interval)
    for column in layout.columns:
        told[f"role:{column.index}"] = column.role
        told[f"unit:{column.index}"] = column.unit
    return {field: answer for field, answer in told.items() if answer}


def _with_places(columns: Sequence[LogColumn], remembered: Layout) -> tuple[LogColumn, ...]:
    places = {(c.index, c.label): c.place for c in remembered.columns}
    return tuple(replace(column, place=places.get((column.index, column.label), ""))
                 for column in columns)


def _decimal(columns: Sequence[SeenColumn], time: SeenColumn | None, answers: Mapping[str, str],
             told: Mapping[str, str]) -> tuple[str, str, tuple[Question, ...]]:
    """Decimal mark, mark between thousands, question. told: what the contributor answered."""
    numbers = [column.cells for column in columns if column.kind == NUMBER]
    times = time.cells if time and time.kind == NUMBER else ()
    marks = find_marks(numbers, times)
    decimal, asked = settle("decimal", "Which sign marks the decimals?", [
        Choice(mark, {".": "point", ",": "comma"}[mark], _reading(marks, mark))
        for mark in marks.possible], answers)
    if told.get("decimal") in {".", ","}:         # cells that do not fit are refused when read
        decimal, asked = told["decimal"], ()
    groups = "" if marks.mixed else thousands_of(numbers, decimal)
    return decimal, groups, asked


def _reading(marks: Marks, mark: str) -> str:
    value = as_number(marks.sample, mark)
    if value is None or (marks.mixed and mark not in marks.sample):
        return f"{marks.sample} → refused"
    return f"{marks.sample} → {spaced(value)}"


def _asked_time(time: SeenColumn | None, answers: Mapping[str, str]) -> tuple[Question, ...]:
    """A column that only its ascending numbers make the time is asked about."""
    if time is None or not is_guessed(time) or answers.get(f"role:{time.index}") in ROLES:
        return ()
    codes = (TIME, NOT_USED, *(code for code in ROLES if code not in (TIME, NOT_USED)))
    return (Question(f"role:{time.index}", "Is this ascending column the time?",
                     role_choices(codes, f"first reading: {time.cells[0]}")),)


def _log_column(column: SeenColumn, roles: Mapping[int, str], units: Mapping[int, str],
                timing: Timing) -> LogColumn:
    if column.index == timing.column:
        return LogColumn(column.index, column.label, TIME, timing.unit)
    role = NOT_USED if column.kind == BLANK else roles.get(column.index, NOT_USED)
    return LogColumn(column.index, column.label, role,
                     units.get(column.index, "") if role != NOT_USED else "")
