"""What separates the cells of a log, and where its table of numbers stands.

RFC 4180 describes commas, quotes doubled inside quotes, and line breaks inside quotes. Semicolons,
tabs, bars and runs of blanks are common practice, no source.
"""
from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from teardowns.logs.cell_kinds import BAD, BLANK, CLOCK, LOOSE, NUMBER, TEXT, kind_of
from teardowns.logs.cells import BLANKS
from teardowns.logs.refusals import RefusedLog

CHOICES = {"\t": "tab", ";": "semicolon", "|": "bar", ",": "comma", " ": "blanks"}
SAMPLE = 300              # records by which a separator is chosen
ONE_COLUMN = "\0"         # no separator at all: the whole line is one cell
_TOKEN = re.compile(r'"(?:[^"]|"")*"|\S+')
# A separator of its own beside a figure: the cell holds two.
_TWO_CELLS = re.compile(r"[0-9] ?[;\t|]|[;\t|] ?[0-9.,+-]")
_STRICT = (NUMBER, CLOCK)


@dataclass(frozen=True, slots=True)
class Record:
    """One line, or several that a quoted cell joins."""

    line: int
    text: str


@dataclass(frozen=True, slots=True)
class Row:
    line: int
    cells: tuple[str, ...]
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    separator: str
    width: int
    rows: tuple[Row, ...]
    text_columns: frozenset[int]
    share: float              # of cells that are numbers or clock times
    covered: float            # share of the lines from the first row on that belong to it
    before: tuple[Record, ...]        # what stands above the first row


def cells_of(line: str, separator: str) -> tuple[str, ...]:
    """The cells of a line, without the blanks around them. RefusedLog where quotes do not close."""
    if separator == ONE_COLUMN:
        return (line.strip(BLANKS).strip('"'),)
    if separator == " ":
        return tuple(_unquoted(token) for token in _TOKEN.findall(line))
    if '"' not in line:
        return tuple(cell.strip(BLANKS) for cell in line.split(separator))
    return tuple(cell.strip(BLANKS) for cell in _quoted_cells(line, separator))


def _quoted_cells(line: str, separator: str) -> list[str]:
    blanks = BLANKS.replace("\t", "") if separator == "\t" else BLANKS
    spaced = re.sub(f'(^|{re.escape(separator)})[{blanks}]+"', r'\1"', line)
    spaced = re.sub(f'"[{blanks}]+(?=$|{re.escape(separator)})', '"', spaced)
    try:
        return next(csv.reader([spaced], delimiter=separator, strict=True), [])
    except csv.Error:
        raise RefusedLog("quotes", "A quoted cell does not end as it should. Quotes stand around "
                                   "a whole cell, and twice where one is meant.") from None


def _unquoted(token: str) -> str:
    return token[1:-1].replace('""', '"') if len(token) > 1 and token[0] == token[-1] == '"' \
        else token


def records_of(lines: Sequence[str]) -> tuple[Record, ...]:
    """Lines that hold something; up to three more are joined while a quote stands open."""
    records, at = [], 0
    while at < len(lines):
        span = _span(lines, at)
        if lines[at].strip(BLANKS + "\f"):
            records.append(Record(at + 1, " ".join(lines[at:at + span])))
        at += span
    return tuple(records)


def _span(lines: Sequence[str], at: int) -> int:
    if lines[at].count('"') % 2 == 0:
        return 1
    quotes = 0
    for span, line in enumerate(lines[at:at + 4], 1):
        quotes += line.count('"')
        if quotes % 2 == 0:
            return span
    return 1


def tables_of(records: Sequence[Record]) -> tuple[Table, ...]:
    """The table under every separator that makes one, the likeliest first.

    The end of the records tells which separators do; there are numbers, and no preamble.
    """
    likely = _likely_tables(records[-SAMPLE:])
    found = (lay_table(records, table.separator) for table in likely)
    return tuple(table for table in found if table)


def _likely_tables(records: Sequence[Record]) -> tuple[Table, ...]:
    found = {separator: table for separator in (*CHOICES, ONE_COLUMN)
             if (table := lay_table(records, separator)) is not None}
    standing = {s: table for s, table in found.items() if _stands(table)}
    best = max((table.share for table in standing.values()), default=0.0)
    # A tab, a semicolon or a bar inside every line is no accident; commas and blanks can be.
    wide = [standing[s] for s in "\t;|" if s in standing and standing[s].share >= best / 2]
    rest = [standing[s] for s in (",", " ", ONE_COLUMN) if s in standing]
    tables = sorted(wide or rest, key=lambda table: -round(table.share, 3))
    return tuple(table for table in tables if tables[0].share - table.share < 1e-3)


def _stands(table: Table) -> bool:
    filled = sum(any(row.kinds[i] != BLANK for row in table.rows) for i in range(table.width))
    if table.separator == " " and any(cell.endswith((",", ";")) for cell in table.rows[0].cells):
        return False
    if table.separator in {",", " "} and all(any(map(_TWO_CELLS.search, row.cells))
                                             for row in table.rows):
        return False
    # One column and a separator at the end of each line are two cells, not a mark at the end.
    ended = all(row.cells[-1].endswith((",", ";")) for row in table.rows)
    if table.separator == ONE_COLUMN:
        return table.covered >= 0.7 and not ended
    trails = table.width >= 2 and filled == 1 and table.separator != " "
    return table.covered >= 0.7 and (filled >= 2 or trails)


def lay_table(records: Sequence[Record], separator: str) -> Table | None:
    """The rows that share a count of cells and the places of their words."""
    rows = [row for record in records if (row := _row(record, separator)) is not None]
    shape = _shape(rows)
    if shape is None:
        return None
    width, texts = shape[0], _text_columns(rows, shape)
    members = _members(rows, width, texts)
    if not members:
        return None
    first, last = members[0].line, members[-1].line
    inside = sum(first <= row.line <= last for row in rows)
    kinds = [kind for row in members for kind in row.kinds if kind != BLANK]
    share = sum(kind in _STRICT for kind in kinds) / len(kinds)
    return Table(separator, width, tuple(members), texts, share, len(members) / inside,
                 tuple(record for record in records if record.line < first))


def _row(record: Record, separator: str) -> Row | None:
    try:
        cells = cells_of(record.text, separator)
    except RefusedLog:
        return Row(record.line, (record.text,), (TEXT,))
    return Row(record.line, cells, tuple(map(kind_of, cells))) if cells else None


def _shape(rows: Sequence[Row]) -> tuple[int, frozenset[int]] | None:
    """Count of cells and places of words that most numbers stand in, key: value lines apart."""
    weights: Counter[tuple[int, frozenset[int]]] = Counter()
    words: dict[tuple[int, frozenset[int]], list[str]] = {}
    for row in rows:
        shape = (len(row.cells), _places(row, TEXT))
        weights[shape] += sum(4 * (k in _STRICT) + (k == LOOSE) for k in row.kinds)
        words.setdefault(shape, []).append(row.cells[0])
    likely = [(shape, weight) for shape, weight in weights.items() if weight
              and not _is_key_value(shape, words[shape])]
    return max(likely, key=lambda one: one[1])[0] if likely else None


def _text_columns(rows: Sequence[Row], shape: tuple[int, frozenset[int]]) -> frozenset[int]:
    """Places of words, those included that most rows leave blank: a remark now and then."""
    width, texts = shape
    usual = [row for row in rows if len(row.cells) == width and _places(row, TEXT) == texts]
    filled = {index for row in usual for index, kind in enumerate(row.kinds) if kind != BLANK}
    return texts | (frozenset(range(width)) - filled)


def _places(row: Row, kind: str) -> frozenset[int]:
    return frozenset(index for index, found in enumerate(row.kinds) if found == kind)


def _is_key_value(shape: tuple[int, frozenset[int]], keys: Sequence[str]) -> bool:
    return 0 in shape[1] and len(set(keys)) == len(keys)


def _members(rows: Sequence[Row], width: int, texts: frozenset[int]) -> list[Row]:
    fitting = [row for row in rows if len(row.cells) == width and _places(row, TEXT) <= texts]
    strict = [row for row in fitting if any(kind in _STRICT for kind in row.kinds)]
    fitting = strict if 2 * len(strict) > len(fitting) else \
        [row for row in fitting if any(kind in (*_STRICT, LOOSE, BAD) for kind in row.kinds)]
    return fitting[_heading_rows(fitting):]


def _heading_rows(rows: Sequence[Row]) -> int:
    """Rows at the top that only look like numbers: “3.3V rail;5V rail” above 3.28;5.01."""
    if not rows:
        return 0
    usual = Counter(_places(row, LOOSE) for row in rows).most_common(1)[0][0]
    top = 0
    while top < len(rows) - 1 and not _has_strict(rows[top]) and _places(rows[top], LOOSE) > usual:
        top += 1
    return top


def _has_strict(row: Row) -> bool:
    return any(kind in _STRICT for kind in row.kinds)
