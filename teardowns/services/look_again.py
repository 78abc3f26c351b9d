"""Ask saved searches again about the units that changed, and tell whose found a new one."""
from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction
from django.urls import reverse

from teardowns.browsing.addresses import query_of
from teardowns.models import ListedUnit, NoticeKind, SavedSearch

from .find_units import matching
from .listing_clock import current_mark
from .notify import notify
from .packed_units import pack, unpack

SLICE = 100              # searches a job: a quarter of a second each at most
TOLD_EACH = 5            # units a search; more are told in one line

Changed = dict[int, int]        # unit: the version that is listed, 0 where it is not any more


def look_again(after_pk: int = 0, size: int = SLICE) -> int | None:
    """The searches that follow this one and have not seen the listing as it is.

    The last of the slice, to go on from; None when it was the last of all.
    """
    now = current_mark().number
    behind = SavedSearch.objects.filter(pk__gt=after_pk, looked__lt=now, person__is_active=True)
    wanted = list(behind.order_by("pk").values_list("pk", "looked")[:size])
    changed: dict[int, Changed] = {}
    for pk, looked in wanted:
        if looked not in changed:
            changed[looked] = _changed_since(looked)
        _look(pk, looked, changed[looked], now)
    return wanted[-1][0] if len(wanted) == size else None


def _changed_since(number: int) -> Changed:
    rows = ListedUnit.objects.filter(changed__gt=number)
    return {pk: publication if is_listed else 0
            for pk, publication, is_listed in rows.values_list("pk", "publication", "is_listed")}


@transaction.atomic
def _look(pk: int, looked: int, changed: Changed, now: int) -> None:
    """Nothing where another process looked meanwhile, or the search was dropped."""
    search = SavedSearch.objects.select_for_update().filter(pk=pk, looked=looked).first()
    if search is None:
        return
    before = unpack(search.found)
    found = set(matching(search.text, search.choices, changed))
    new = [unit for unit in sorted(found - before, reverse=True) if changed[unit]]
    search.found, search.looked = pack(before - changed.keys() | found), now
    search.save(update_fields=["found", "looked"])
    _tell(search, new, changed)


def _tell(search: SavedSearch, new: Sequence[int], changed: Changed) -> None:
    """A version that came back after it was withdrawn is no news a second time."""
    words, subject = f"Search “{search.name}”", f"search/{search.pk}"
    for unit in new[:TOLD_EACH]:
        notify([search.person_id], NoticeKind.SEARCH, unit=unit, subject=subject, words=words,
               event=f"{subject}/publication/{changed[unit]}")
    if (more := len(new) - TOLD_EACH) > 0:
        notify([search.person_id], NoticeKind.SEARCH, subject=subject,
               words=f"{words}: {more} more", address=_address(search),
               event=f"{subject}/listing/{search.looked}")


def _address(search: SavedSearch) -> str:
    """The list as the search narrows it."""
    return reverse("unit_list") + query_of(search.text, search.choices)
