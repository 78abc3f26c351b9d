"""The page of a review: what is asked and decided, both sides of the evidence, every item."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from teardowns.reviewing.progress import Progress

from .evidence_names import NAMES
from .links import Links
from .review_items import Item, ItemKind, Sources, item_kinds
from .review_sides import sides_told
from .review_words import progress_told

OPEN, ALL = "open", "all"
SHOWS = ((ALL, "Everything"), (OPEN, "Not decided by you"))


def review_sheet(unit: Any, rows: Mapping[str, Sequence[Any]], sources: Sources,
                 progress: Progress, kind: str = "", show: str = ALL) -> dict[str, Any]:
    """Context of the page.

    unit : with its work and the review that is held, see services/review_rows.py
    kind, show : of what is listed; "" and "all" list everything
    """
    kinds = item_kinds(rows, sources)
    items = [item for each in kinds for item in each.items]
    return {
        "unit": unit, "is_correction": unit.work_correction is not None,
        "kinds": kinds, "kind": kind, "shows": SHOWS, "show": show,
        "listed": _listed(kinds, kind, show),
        "record": Links(unit.pk, "working" if unit.work_correction else "").unit,
        "settled": sum(not item.is_asked for item in items),
        "sides": sides_told(unit.held_sides),
        "removed": removed_told((unit.held_sides or {}).get("removed", {})),
        **review_progress(progress, sources.reviewer, items),
    }


def review_progress(progress: Progress, reviewer: int, items: Sequence[Item]) -> dict[str, Any]:
    """How far this reviewer is, how far all are together, and where to go on."""
    asked, decided = len(progress.asked_of(reviewer)), len(progress.decided_by(reviewer))
    return {
        "asked": asked, "decided": decided, "told": progress_told(decided, asked),
        "together": f"{len(progress.decided)} of {len(progress.asked)} by all reviewers together",
        "next": next((item.anchor for item in items if item.is_open), ""),
        "is_done": decided == asked,
    }


def removed_told(removed: Mapping[str, Sequence[Mapping[str, Any]]]) -> list[str]:
    """What the rows that a correction took out were called."""
    named = dict(NAMES.values())
    return [named[rows](row) if rows in named else f"printed text, {row['source']}"
            for rows, found in removed.items() for row in found]


def _listed(kinds: Sequence[ItemKind], kind: str, show: str) -> list[ItemKind]:
    found = [each for each in kinds if not kind or each.name == kind]
    if show != OPEN:
        return found
    left = [replace(each, items=[item for item in each.items if item.is_open]) for each in found]
    return [each for each in left if each.items]
