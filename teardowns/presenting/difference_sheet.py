"""Two versions of a unit side by side: what was added, removed and changed, and what that did to
the verdicts. Nothing that differs is left out; what a review alone moved is told in short."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.exchange.changes import ADDED, CHANGED, REMOVED, Changes, RowChange, changes
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.verdict_changes import VerdictChanges
from teardowns.models import ReviewState

from .difference_names import LISTS, name_in, row_ref
from .difference_words import Line, lines_of, unit_lines
from .links import anchor
from .verdict_difference import verdict_difference

KINDS = {ADDED: "added", REMOVED: "removed", CHANGED: "changed"}
NOTHING = "The evidence of both is the same."


@dataclass(frozen=True, slots=True)
class DifferentRow:
    name: str
    kind: str                    # word
    lines: list[Line]
    href: str = ""               # to the row on the page of the later version, or where it was

    @property
    def is_whole(self) -> bool:
        """Whether it came or went: its lines have one side only."""
        return self.kind != KINDS[CHANGED]


@dataclass(frozen=True, slots=True)
class Reviewed:
    """Rows of which nothing but the review moved, and it moved alike."""

    was: str
    now: str
    names: list[str]

    @property
    def count(self) -> str:
        return f"{len(self.names)} row{'s' if len(self.names) != 1 else ''}"


@dataclass(frozen=True, slots=True)
class DifferentList:
    anchor: str
    title: str
    caption: str                 # "1 added, 2 changed"
    rows: list[DifferentRow]
    reviewed: list[Reviewed]


def difference_sheet(was: Mapping[str, Any], now: Mapping[str, Any],
                     moved: VerdictChanges | None = None, was_page: str = "", now_page: str = ""
                     ) -> dict:
    """Context of teardowns/_difference.html.

    was, now : full documents of one unit
    moved : what the reports on them say differently; None: no reports are compared
    was_page, now_page : addresses on which their rows of evidence stand; "": no links
    """
    found = changes(was, now)
    pages = {REMOVED: was_page, ADDED: now_page, CHANGED: now_page}
    lists = [_list(name, found.of(name), was, now, pages) for name in LISTS if found.of(name)]
    if found.unit:
        lists.insert(0, _of_unit(found, was, now))
    return {"lists": lists, "summary": _summary(found) or NOTHING, "is_same": not found,
            "verdicts": verdict_difference(moved) if moved is not None else None}


def summary(was: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    """How much differs between two documents, in one line."""
    return _summary(changes(*(full(document, unit_schema()) for document in (was, now)))) or NOTHING


def _of_unit(found: Changes, was, now) -> DifferentList:
    lines = unit_lines([field.name for field in found.unit], was, now)
    return DifferentList("changed-unit", LISTS[""][0], f"{len(lines)} changed",
                         [DifferentRow("What it is and where it is from", "changed", lines)], [])


def _list(name, rows: list[RowChange], was, now, pages) -> DifferentList:
    evidence = [row for row in rows if not row.is_review_only]
    return DifferentList(
        f"changed-{name}", LISTS[name][0], _caption(rows),
        [_row(row, was, now, pages[row.kind]) for row in evidence],
        _reviewed([row for row in rows if row.is_review_only], was, now))


def _row(change: RowChange, was, now, page: str) -> DifferentRow:
    ref = row_ref(change.list, change.key)
    return DifferentRow(
        name_in(change.list, change.now or change.was or {}, was, now), KINDS[change.kind],
        lines_of(change, was, now), f"{page}#{anchor(ref)}" if page and ref else "")


def _reviewed(rows: list[RowChange], was, now) -> list[Reviewed]:
    groups: dict[tuple[str, str], list[str]] = {}
    for row in rows:
        moved = row.fields[0]
        groups.setdefault((moved.was, moved.now), []).append(
            name_in(row.list, row.now or {}, was, now))
    return [Reviewed(ReviewState(before).label, ReviewState(after).label, names)
            for (before, after), names in groups.items()]


def _caption(rows: list[RowChange]) -> str:
    """`1 added, 2 changed, 14 reviewed`."""
    reviewed = sum(row.is_review_only for row in rows)
    counts = [(sum(row.kind == kind and not row.is_review_only for row in rows), word)
              for kind, word in KINDS.items()]
    return ", ".join(f"{count} {word}" for count, word in [*counts, (reviewed, "reviewed")]
                     if count)


def _summary(found: Changes) -> str:
    """`Rows of evidence and files: 1 added, 2 changed. Of the unit itself: 3 changed.`"""
    parts = []
    if found.rows:
        parts.append(f"Rows of evidence and files: {_caption(list(found.rows))}.")
    if found.unit:
        parts.append(f"Of the unit itself: {len(found.unit)} changed.")
    return " ".join(parts)
