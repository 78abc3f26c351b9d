"""The clock of the listing: which state of it somebody knows, and what came since.

Whoever changes the listing holds the clock until the transaction ends, so that numbers follow each
other in the order in which changes become visible. It is taken after the locks of units and before
the end of the log: who writes an entry of the log first, and lists after it, calls `hold_clock`
before both.
"""
from __future__ import annotations

import secrets
from dataclasses import dataclass

from django.db import connection

from teardowns.models import ListingClock

CURRENT = f'SELECT number, stamp FROM "{ListingClock._meta.db_table}" ORDER BY id'


@dataclass(frozen=True, slots=True)
class Mark:
    """A state of the listing."""

    number: int
    stamp: str

    @property
    def is_beginning(self) -> bool:
        """Whether nothing was ever listed, so that there is no change to recognise it by."""
        return self.number == 0


def hold_clock() -> ListingClock:
    """The clock, locked until the transaction ends."""
    return ListingClock.objects.select_for_update().get_or_create(pk=1)[0]


def raise_clock(clock: ListingClock) -> int:
    """The number that the rows changed now bear; of a clock that is held."""
    clock.number += 1
    clock.stamp = secrets.token_hex(4)
    clock.trail = " ".join([*clock.trail.split(), clock.stamp][-ListingClock.KEPT:])
    clock.save(update_fields=["number", "stamp", "trail"])
    return clock.number


def current_mark() -> Mark:
    """In one small query, without the ORM: every page asks it."""
    with connection.cursor() as cursor:
        cursor.execute(CURRENT)
        row = cursor.fetchone()
    return Mark(*row) if row else Mark(0, "")


def mark_and_whether_it_follows(known: Mark | None) -> tuple[Mark, bool]:
    """The current mark, and whether it came from the known one by changes that are all kept."""
    row = ListingClock.objects.values_list("number", "stamp", "trail").first()
    if row is None:
        return Mark(0, ""), False
    number, stamp, trail = row
    return Mark(number, stamp), known is not None and _follows(known, number, trail.split())


def belongs_to(known: Mark) -> bool:
    """Whether the listing came from this state, which was kept in the database itself: of one that
    lies further back than the trail nothing else can tell."""
    row = ListingClock.objects.values_list("number", "trail").first()
    if row is None:
        return False
    number, stamps = row[0], row[1].split()
    return number - known.number >= len(stamps) > 0 or _follows(known, number, stamps)


def _follows(known, number, stamps):
    steps = number - known.number
    return 0 <= steps < len(stamps) and stamps[-1 - steps] == known.stamp
