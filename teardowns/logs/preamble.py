"""What stands above the numbers: headings, a line of units, the interval between samples."""
from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from teardowns.logs.cell_kinds import BLANK, CLOCK, NUMBER, TEXT, kind_of
from teardowns.logs.decimal_marks import is_open
from teardowns.logs.headings import is_channel, is_unit_cell, read_heading, read_unit
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import UNITS
from teardowns.logs.separators import CHOICES, Record, Table, cells_of

_COMMENT = re.compile(r"^\s*(?:#+|//+|%+|\*+|!+)\s*")
_RULER = re.compile(r"[-=#*_+|;,\s]+")
_INTERVAL = re.compile(
    r"interval|increment|inkrement|incremento|abtastzeit|p[eé]riod|\bdt\b|delta ?t\b|time ?step",
    re.IGNORECASE)
_RATE = re.compile(r"rate|abtastfrequenz|fr[eé]quence d.[eé]chantillonnage", re.IGNORECASE)
_KEY_VALUE = re.compile(
    r"(?P<key>[^0-9\[(]*?)(?:[\[(](?P<inside>[^\])]*)[\])])?[\s:=,;|\"]*"
    r"(?P<value>[+-]?[0-9][0-9.,]*(?:[eE][+-]?[0-9]+)?)[\s,;|\"]*(?P<unit>[^\s,;|\"0-9]*)[\s,;|\"]*")
_RATES = {"hz": 1.0, "khz": 1e3, "mhz": 1e6, "sa/s": 1.0, "s/s": 1.0, "ksa/s": 1e3, "msa/s": 1e6}


@dataclass(frozen=True, slots=True)
class Headings:
    labels: tuple[str, ...]           # () = the file has none
    units: tuple[str, ...]            # of a line of units, "" without one


@dataclass(frozen=True, slots=True)
class Interval:
    """What the preamble says of the time between samples."""

    written: str
    value: float
    unit: str                 # key of UNITS["s"], or "" where none is written
    line: int

    @property
    def seconds(self) -> float:
        return self.value * UNITS["s"][self.unit or "s"][0]


def find_headings(table: Table) -> Headings:
    """The heading of every column; several lines of headings are joined."""
    lines = [record.text for record in table.before if not _RULER.fullmatch(record.text)]
    above = [heading_cells(text, table) for text in lines]
    units: tuple[str, ...] = ("",) * table.width
    if len(above) > 1 and _is_unit_line(above[-1]) and _names_quantities(above[-2]):
        units = tuple("" if not any(read_unit(cell)) and _is_nothing(cell) else cell
                      for cell in above.pop())
    if not above or not _is_heading(above[-1]):
        return Headings((), units)
    labels = above.pop()
    for text in reversed(lines[:len(above)][-2:]):
        group = _fitted(_cells(text, table.separator), table.width)
        if not _is_group_line(group):
            break
        labels = tuple(_joined(upper, lower)
                       for upper, lower in zip(_filled(group), labels, strict=True))
    return Headings(labels, units)


def heading_cells(text: str, table: Table) -> tuple[str, ...]:
    """The cells of a line above the rows, as many as a row has; () where they do not fit."""
    for shown in dict.fromkeys((text, _COMMENT.sub("", text))):
        cells = _fitted(_cells(shown, table.separator), table.width)
        if cells:
            return (_COMMENT.sub("", cells[0]) or cells[0], *cells[1:])
        for separator in ("  ", *CHOICES, "()"):
            cells = _cells(shown, separator)
            if len(cells) == table.width > 1 and _names_quantities(cells):
                return cells
    return ()


def find_interval(before: Sequence[Record]) -> Interval | None:
    found = (_interval(record) for record in before)
    return next((interval for interval in found if interval), None)


def _interval(record: Record) -> Interval | None:
    if len(record.text) > 200:            # a name and a number are shorter
        return None
    found = _KEY_VALUE.fullmatch(_COMMENT.sub("", record.text))
    if not found or is_open(found["value"]):      # "1,000" may be one or a thousand: ask
        return None
    try:
        value = float(found["value"].replace(",", "."))
    except ValueError:
        return None
    written = f"{found['value']} {found['unit'] or found['inside'] or ''}".strip()
    unit = found["unit"] or found["inside"] or ""
    if _RATE.search(found["key"]) and unit.lower() in _RATES and value > 0:
        return Interval(written, 1 / (value * _RATES[unit.lower()]), "s", record.line)
    known = read_unit(unit)[0]
    if not _INTERVAL.search(found["key"]) or value <= 0 or (unit and known not in UNITS["s"]):
        return None
    return Interval(written, value, known, record.line)


def _cells(text: str, separator: str) -> tuple[str, ...]:
    try:
        if separator == "  ":
            return tuple(re.split(r"\s{2,}|\t", text.strip()))
        if separator == "()":
            return tuple(re.findall(r"\S+(?:\s*[\[(][^\])]*[\])])?", text))
        return cells_of(text, separator)
    except RefusedLog:
        return ()


def _fitted(cells: tuple[str, ...], width: int) -> tuple[str, ...]:
    if len(cells) > width and not any(cells[width:]):
        cells = cells[:width]
    if len(cells) == width - 1 and width > 2:
        cells = (*cells, "")
    return cells if len(cells) == width else ()


def _is_unit_line(cells: Sequence[str]) -> bool:
    return any(any(read_unit(cell)) for cell in cells) and all(map(is_unit_cell, cells))


def _is_nothing(cell: str) -> bool:
    return cell.strip("[](){} ").lower() in {"", "-", "--", "none", "1", "#", "n/a"}


def _names_quantities(cells: Sequence[str]) -> bool:
    return any(read_heading(cell).quantity or is_channel(cell) for cell in cells)


def _is_heading(cells: Sequence[str]) -> bool:
    kinds = [kind_of(cell) for cell in cells]
    if TEXT not in kinds and not _names_quantities(cells) or CLOCK in kinds:
        return False
    return NUMBER not in kinds or (len(cells) > 2 and _names_quantities(cells))


def _is_group_line(cells: Sequence[str]) -> bool:
    kinds = [kind_of(cell) for cell in cells]
    return len(cells) > 2 and set(kinds) <= {TEXT, BLANK} and any(cells[2:])


def _filled(cells: Sequence[str]) -> tuple[str, ...]:
    """A name over several columns stands over the first of them only."""
    filled: list[str] = []
    for cell in cells:
        filled.append(cell or (filled[-1] if filled else ""))
    return tuple(filled)


def _joined(upper: str, lower: str) -> str:
    return lower if upper.lower() == lower.lower() else f"{upper} {lower}".strip()


