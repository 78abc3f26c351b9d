"""What differs between two full documents of one unit: row by row, field by field.

Rows are the same row when they have the same key; photos and recordings when they are the same
file, whatever they are called; library parts by their marking. The order of rows says nothing, and
the stage of the unit is no part of its content.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isclose
from typing import Any

from teardowns.exchange.rules import CITES, IDENTITY
from teardowns.exchange.schema import row_schema, unit_schema

ADDED, REMOVED, CHANGED = "added", "removed", "changed"
SAME = 1e-9                                      # relative: what a way through a file may lose
BY_FILE = ("photos", "recordings")
LISTS = tuple(name for name in unit_schema()["properties"] if name in IDENTITY)
STAGE = "status"

Document = Mapping[str, Any]
Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One field; None where it was, or is, not known."""

    name: str
    was: Any
    now: Any


@dataclass(frozen=True, slots=True)
class RowChange:
    kind: str                            # ADDED, REMOVED or CHANGED
    list: str                            # "measurements", or "" for the unit itself
    key: str                             # as it is now, or was
    was: Row | None
    now: Row | None
    fields: tuple[FieldChange, ...]      # in the order of the form; of a whole row all it states

    @property
    def is_review_only(self) -> bool:
        """Whether the evidence stayed and only what a review said of it moved."""
        return self.kind == CHANGED and [one.name for one in self.fields] == ["review_state"]


@dataclass(frozen=True, slots=True)
class Changes:
    """In the order of the form: the unit first; what was removed stands where it stood."""

    unit: tuple[FieldChange, ...]
    rows: tuple[RowChange, ...]

    def __bool__(self) -> bool:
        return bool(self.unit or self.rows)

    def of(self, name: str) -> list[RowChange]:
        """The changed rows of one list of the form."""
        return [row for row in self.rows if row.list == name]


def changes(was: Document, now: Document) -> Changes:
    """All that differs between two full documents of one unit."""
    names = [name for name in unit_schema()["properties"]["unit"]["properties"] if name != STAGE]
    unit = tuple(_fields(was["unit"], now["unit"], names))
    rows = (row for name in LISTS for row in _rows(name, was, now))
    return Changes(unit, tuple(rows))


def same(was: Any, now: Any) -> bool:
    """Whether two values of the form say the same: numbers within SAME, all else exactly."""
    if isinstance(was, Mapping) and isinstance(now, Mapping):
        return was.keys() == now.keys() and all(same(was[key], now[key]) for key in was)
    if isinstance(was, list | tuple) and isinstance(now, list | tuple):
        return len(was) == len(now) and all(map(same, was, now))
    if isinstance(was, float) or isinstance(now, float):
        return _is_number(was) and _is_number(now) and isclose(was, now, rel_tol=SAME)
    return type(was) is type(now) and was == now


def _is_number(value):
    return isinstance(value, int | float) and not isinstance(value, bool)


def _rows(name: str, was: Document, now: Document) -> Iterator[RowChange]:
    identity = "sha256" if name in BY_FILE else IDENTITY[name]
    before = {row[identity]: row for row in was[name]}
    after = {row[identity]: row for row in now[name]}
    columns = list(row_schema(name)["properties"])
    for mark in _in_reading_order(list(before), list(after)):
        old, new = before.get(mark), after.get(mark)
        found = tuple(_of_row(name, old, new, columns, was, now))
        kind = ADDED if old is None else REMOVED if new is None else CHANGED
        if found:
            key = (new or old or {})[IDENTITY[name]]
            yield RowChange(kind, name, key, old, new, found)


def _in_reading_order(before: list[str], after: list[str]) -> list[str]:
    """As they stand now, each removed one after the one that it followed."""
    order = list(after)
    place = -1
    for mark in before:
        if mark in order:
            place = order.index(mark)
        else:
            place += 1
            order.insert(place, mark)
    return order


def _of_row(name, old, new, columns, was, now) -> Iterator[FieldChange]:
    if old is None or new is None:
        yield from _fields(old or {}, new or {}, columns)
        return
    for field in columns:
        if not same(old.get(field), new.get(field)) or _cites_another(
                name, field, old, new, was, now):
            yield FieldChange(field, old.get(field), new.get(field))


def _fields(old: Row, new: Row, names) -> Iterator[FieldChange]:
    for name in names:
        if not same(old.get(name), new.get(name)):
            yield FieldChange(name, old.get(name), new.get(name))


def _cites_another(name, field, old, new, was, now) -> bool:
    """Whether a row names a file by the key that another file has by now."""
    target = CITES.get(field)
    if target not in BY_FILE or name in BY_FILE or not old.get(field):
        return False
    return _file(was, target, old[field]) != _file(now, target, new[field])


def _file(document, target, key):
    return next((row["sha256"] for row in document[target] if row["key"] == key), None)
