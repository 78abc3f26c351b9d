"""The numbers of all public units, for pictures of many of them.

They lie in the process and follow the clock of the listing: a page asks for the clock, and for
rows only when it has moved, then for those that changed.
"""
from __future__ import annotations

from collections.abc import Iterable

from teardowns.models import ListedUnit
from teardowns.populations.listed import COLUMNS, ListedNumbers

from .follow_listing import Follower


def listed_numbers() -> ListedNumbers:
    """One query while the listing stands still."""
    return _numbers.now()


def titles(pks: Iterable[int]) -> dict[int, str]:
    """Titles of some public units. One query."""
    found = ListedUnit.objects.listed().filter(pk__in=list(pks))
    return dict(found.values_list("pk", "title"))


def _all() -> ListedNumbers:
    return ListedNumbers.of_rows(
        ListedUnit.objects.listed().order_by().values_list("pk", *COLUMNS))


def _with_changes(numbers: ListedNumbers, number: int) -> ListedNumbers:
    rows = list(ListedUnit.objects.filter(changed__gt=number).order_by()
                .values_list("is_listed", "pk", *COLUMNS))
    return numbers.with_changes([row[1] for row in rows], [row[1:] for row in rows if row[0]])


_numbers = Follower(_all, _with_changes)
