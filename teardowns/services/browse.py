"""A page of the list of public units, from an index that lives in this process."""
from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import Any

from django.db.models import QuerySet, TextField
from django.db.models.functions import Cast

from teardowns.browsing.finding import Choices, Found, find
from teardowns.browsing.index import Index
from teardowns.models import ListedUnit

from .facets import COLUMNS, FACETS, LISTS, SORTS
from .follow_listing import Follower
from .listing_clock import Mark
from .pack_listing import Packs

__all__ = ["Found", "browse", "pack_listing", "public_index"]
MOST_FOLLOWED = 0.1          # share of all rows; where more changed, all are read anew


def browse(choices: Choices, *, sort: str = "newest", after: str = "", size: int = 25,
           within: Sequence[int] | None = None) -> Found:
    """A page of public units. Raises KeyError for an unknown facet or sort, BadPlace for `after`.

    choices : facet → codes, any of which a unit must have; within : units that a search found,
    best first, which sort="rank" keeps
    """
    return find(public_index(), choices, sort=sort, after=after, size=size, within=within)


def public_index(mark: Mark | None = None) -> Index:
    """All public units as this connection sees them now; no query, where nothing changed and the
    mark of the listing is known."""
    return _index.now(mark)


def pack_listing() -> bool:
    """Keep the index for processes that begin; whether anything had changed."""
    return _packs.keep(public_index)


def _read_all() -> Index:
    rows = ListedUnit.objects.listed().order_by("pk")
    return _with_rows(Index.empty(FACETS.values(), SORTS), rows)


def _with_changes(index: Index, number: int) -> Index | None:
    rows = ListedUnit.objects.filter(changed__gt=number)
    count = rows.count()
    if not count:
        return replace(index)           # another object for another state, see family_names
    return None if count > MOST_FOLLOWED * index.size else _with_rows(index, rows)


def _with_rows(index: Index, rows: QuerySet[ListedUnit]) -> Index:
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


_packs = Packs(FACETS, SORTS, __file__)
_index = Follower(_read_all, _with_changes, _packs.kept)
