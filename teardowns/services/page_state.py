"""Whether what everybody reads of some units, or of all in a list, is still what it was: for pages
that are kept.

Every change of state ends with an entry of the log, so the end of the log stands for all of them.
What jobs work out without an entry is named besides: another assessment, what looks alike, what
sister boards showed.
"""
from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import asdict, dataclass
from functools import cache
from hashlib import sha256
from typing import Any, Self

from django.db import connection
from django.db.models import Subquery, TextField
from django.db.models.functions import Cast

from core.audit.models import Head
from teardowns.models import Unit

from .listing_clock import Mark, current_mark
from .log_tail import tail

OF_UNIT = ("pk", "status", "quarantined_at", "publication", "publication__standing",
           "publication__standing_all", "publication__likeness__publication",
           "publication__sister_report__wanted", "publication__sister_report__digest",
           "publication__sister_report__made_at")


@dataclass(frozen=True, slots=True)
class PageState:
    units: tuple[int, ...]
    rows: str                                # digest of what stands of each
    sequence: int                            # of the end of the log
    end: str                                 # its hash

    def holds(self, now: PageState) -> bool:
        """Whether a page about the units that was made in this state is right in that one."""
        if (self.units, self.rows) != (now.units, now.rows):
            return False
        return self.end == now.end or not tail.concerns(self, now)

    def as_text(self) -> str:
        return json.dumps(asdict(self))

    @classmethod
    def of_text(cls, text: str) -> Self:
        said = json.loads(text)
        return cls(**{**said, "units": tuple(said["units"])})


@dataclass(frozen=True, slots=True)
class ListState:
    """Of a page that says nothing but what the listing has."""

    mark: Mark

    def holds(self, now: ListState) -> bool:
        return self == now

    def as_text(self) -> str:
        return json.dumps(asdict(self.mark))

    @classmethod
    def of_text(cls, text: str) -> Self:
        return cls(Mark(**json.loads(text)))


@dataclass(frozen=True, slots=True)
class RulesState:
    """Of a page that says nothing but what the rulebook has."""

    version: str

    def holds(self, now: RulesState) -> bool:
        return self == now

    def as_text(self) -> str:
        return self.version

    @classmethod
    def of_text(cls, text: str) -> Self:
        return cls(text)


def list_state() -> ListState | None:
    """None before anything was listed. One query."""
    mark = current_mark()
    return None if mark.is_beginning else ListState(mark)


def page_state(pks: Collection[int]) -> PageState | None:
    """Of units that everybody sees, all of them; None where one is not, or where no log tells of
    changes. One query."""
    sql, values = _question(len(pks), connection.vendor)
    asked = iter(pks)
    with connection.cursor() as cursor:
        cursor.execute(sql, [next(asked) if value == OPEN else value for value in values])
        rows = cursor.fetchall()
    if len(rows) != len(pks) or not rows or not rows[0][-1]:
        return None
    *_, sequence, end = rows[0]
    what = repr([row[:-2] for row in rows]).encode()
    return PageState(tuple(row[0] for row in rows), sha256(what).hexdigest(), sequence, end)


OPEN = "…"          # stands where the number of a unit goes


@cache
def _question(count: int, vendor: str) -> tuple[str, tuple[Any, ...]]:
    """For so many units, written once: the ORM takes longer over it than the database to answer."""
    head = Head.objects.filter(pk=1)
    rows = Unit.objects.published().order_by("pk").values_list(
        *OF_UNIT, Cast("publication__likeness__alike", TextField()),
        Subquery(head.values("sequence")), Subquery(head.values("hash")))
    numbers = range(-count, 0)                        # no unit has one below zero
    sql, values = rows.filter(pk__in=numbers).query.sql_with_params()
    return sql, tuple(OPEN if value in numbers else value for value in values)
