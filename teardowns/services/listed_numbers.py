"""The numbers of all public units, for pictures of many of them.

They lie in the process and follow the clock of the listing: a page asks for the clock, and for
rows only when it has moved, then for those that changed.
"""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from teardowns.models import ListedUnit
from teardowns.populations.listed import COLUMNS, ListedNumbers

from .listing_clock import Mark, current_mark, mark_and_whether_it_follows


@dataclass(frozen=True, slots=True)
class _Held:
    mark: Mark
    numbers: ListedNumbers


class _Process:
    """What this process knows of the listing."""

    held: _Held | None = None


def listed_numbers() -> ListedNumbers:
    """One query while the listing stands still."""
    held = _Process.held
    if held is not None and held.mark == current_mark():
        return held.numbers
    # The mark is read first: rows that change meanwhile are read once more the next time.
    mark, follows = mark_and_whether_it_follows(held.mark if held else None)
    numbers = _changed(held) if held is not None and follows else _all()
    if not mark.is_beginning:
        _Process.held = _Held(mark, numbers)
    return numbers


def titles(pks: Iterable[int]) -> dict[int, str]:
    """Titles of some public units. One query."""
    found = ListedUnit.objects.listed().filter(pk__in=list(pks))
    return dict(found.values_list("pk", "title"))


def _all():
    return ListedNumbers.of_rows(
        ListedUnit.objects.listed().order_by().values_list("pk", *COLUMNS))


def _changed(held):
    rows = list(ListedUnit.objects.filter(changed__gt=held.mark.number).order_by()
                .values_list("is_listed", "pk", *COLUMNS))
    return held.numbers.with_changes([row[1] for row in rows],
                                     [row[1:] for row in rows if row[0]])
