"""Serious findings of public records that may stand as headlines: two people confirmed them."""
from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

from teardowns.engine.risk import ORDER
from teardowns.models import EVIDENCE, ListedUnit, Publication, ReviewDecision

from .confirmations import DECIDED, confirmed_refs, counted

NEEDED = 2                               # independent confirmations
LOOKED_AT = 60                           # newest records with a serious finding
SERIOUS = ORDER.index("serious")


@dataclass(frozen=True, slots=True)
class Headline:
    publication: Publication
    finding: dict[str, Any]
    confirmed: int


def serious_headlines() -> list[Headline]:
    """Of the newest public records, in three queries."""
    gravest = ListedUnit.objects.listed().filter(risk=SERIOUS).order_by("-published_at", "-unit")
    publications = list(Publication.objects.current().filter(
        pk__in=list(gravest.values_list("publication", flat=True)[:LOOKED_AT]),
        standing__risk=SERIOUS).select_related("unit__contributor", "standing").defer(
        "document", "words"))
    decisions = _decisions([one.unit_id for one in publications])
    return [headline for one in publications for headline in _of(one, decisions[one.unit_id])]


def _decisions(units):
    found = defaultdict(list)
    rows = ReviewDecision.objects.filter(review__unit__in=units).order_by("pk")
    for unit, *decision in rows.values_list("review__unit", *DECIDED):
        found[unit].append(tuple(decision))
    return found


def _of(publication, decisions):
    findings = publication.standing.payload.get("safety", {}).get("findings", ())
    confirmed = confirmed_refs(publication.unit.contributor_id, _rows(publication), decisions)
    numbers = counted(findings, confirmed)
    return [Headline(publication, one, numbers[one["scenario"]]) for one in findings
            if one["level"] == "serious" and numbers[one["scenario"]] >= NEEDED]


def _rows(publication):
    """By ref, version and author of each row as it was published."""
    names = [model._meta.model_name for model in EVIDENCE]
    return {f"{name}/{row['fields']['key']}": SimpleNamespace(
                version=row["fields"]["version"], author_id=row["fields"]["author"])
            for name in names for row in publication.frozen.get(name, ())}
