"""What the page that helps to choose offers: units found by words, or the newest."""
from __future__ import annotations

from collections.abc import Collection

from teardowns.models import ListedUnit

from .search import search

MOST = 20


def units_there(pks: Collection[int]) -> set[int]:
    """Those of the units that everybody sees."""
    return set(ListedUnit.objects.listed().filter(pk__in=pks).values_list("pk", flat=True))


def units_to_compare(text: str, chosen: Collection[int]) -> list[ListedUnit]:
    """Listed units, best or newest first; without those that are chosen already."""
    listed = ListedUnit.objects.listed().exclude(pk__in=chosen)
    if not text.strip():
        return list(listed.order_by("-published_at", "-unit")[:MOST])
    found = search(text, limit=MOST + len(chosen)).units
    by_pk = listed.in_bulk(found)
    return [by_pk[pk] for pk in found if pk in by_pk][:MOST]
