"""What stands beside the evidence of many units in a document: one query each."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from teardowns.exchange.beside import licence_row, reply_row
from teardowns.models import ContributionLicence, Reply


def licences_beside(units: Iterable[int]) -> defaultdict[int, list[dict[str, Any]]]:
    """By unit, under which terms it was handed in, the first time first."""
    found = defaultdict(list)
    for one in ContributionLicence.objects.filter(unit__in=units).select_related(
            "author").order_by("pk"):
        found[one.unit_id].append(licence_row(one))
    return found


def replies_beside(units: Iterable[int]) -> defaultdict[int, list[dict[str, Any]]]:
    """By unit, the replies that a moderator verified."""
    found = defaultdict(list)
    for one in Reply.objects.shown().filter(unit__in=units):
        found[one.unit_id].append(reply_row(one))
    return found
