"""A page of the list of public units, from an index that lives in this process.

The index follows the clock of the listing: where nothing has changed, one small query tells so.
What a transaction changed and took back is never shown to another: a state that this connection
does not see is thrown away, and read anew.
"""
from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from threading import Lock
from typing import Any

from django.db.models import QuerySet, TextField
from django.db.models.functions import Cast

from teardowns.browsing.finding import Choices, Found, find
from teardowns.browsing.index import Index
from teardowns.models import ListedUnit

from .facets import COLUMNS, FACETS, LISTS, SORTS
from .listing_clock import Mark, current_mark, mark_and_whether_it_follows

__all__ = ["Found", "browse", "public_index"]
MOST_FOLLOWED = 0.1          # share of all rows; where more changed, all are read anew


@dataclass(frozen=True, slots=True)
class _Held:
    mark: Mark
    index: Index


class _Process:
    """What this process knows of the listing."""

    held: _Held | None = None
    lock = Lock()


def browse(choices: Choices, *, sort: str = "newest", after: str = "", size: int = 25,
           within: Sequence[int] | None = None) -> Found:
    """A page of public units. Raises KeyError for an unknown facet or sort, BadPlace for `after`.

    choices : facet → codes, any of which a unit must have; within : units that a search found,
    best first, which sort="rank" keeps
    """
    return find(public_index(), choices, sort=sort, after=after, size=size, within=within)


def public_index() -> Index:
    """All public units as this connection sees them now."""
    held = _Process.held
    if held is not None and held.mark == current_mark():
        return held.index
    with _Process.lock:
        return _followed(_Process.held)


def _followed(held: _Held | None) -> Index:
    # The mark is read first: rows that change meanwhile are read once more the next time.
    mark, follows = mark_and_whether_it_follows(held.mark if held else None)
    if held is not None and held.mark == mark:
        return held.index
    index = _with_changes(held) if held is not None and follows else None
    index = index or _of_rows(_EMPTY, ListedUnit.objects.listed())
    if not mark.is_beginning:
        _Process.held = _Held(mark, index)
    return index


def _with_changes(held: _Held) -> Index | None:
    """None where so much has changed that reading all is quicker."""
    rows = ListedUnit.objects.filter(changed__gt=held.mark.number)
    if rows.count() > MOST_FOLLOWED * held.index.size:
        return None
    return _of_rows(held.index, rows)


_EMPTY = object()


def _of_rows(index: Any, rows: QuerySet[ListedUnit]) -> Index:
    index = Index.empty(FACETS.values(), SORTS) if index is _EMPTY else index
    plain = [name for name in COLUMNS if name not in LISTS]
    # Lists come as text: few differ, and each is read once.
    texts = {f"{name}_text": Cast(name, TextField()) for name in LISTS}
    found = list(rows.annotate(**texts).values_list("unit_id", "is_listed", *plain, *texts))
    pks, is_listed, *columns = zip(*found, strict=True) if found else [()] * (2 + len(COLUMNS))
    named = dict(zip([*plain, *LISTS], columns, strict=True))
    return index.changed(pks, is_listed, _readable(named))


def _readable(columns: Mapping[str, Sequence[Any]]) -> dict[str, Sequence[Any]]:
    read = cache(lambda text: tuple(json.loads(text)))
    return {**columns, **{name: [read(text) for text in columns[name]] for name in LISTS},
            "published_at": [at.timestamp() for at in columns["published_at"]]}
