"""All rows of evidence of some units as far as their review is concerned, in one query."""
from __future__ import annotations

from collections.abc import Iterable

from django.db.models import Value

from teardowns.models import EVIDENCE
from teardowns.reviewing.words import Row

PLACES = {model._meta.model_name: place for place, model in enumerate(EVIDENCE)}
COLUMNS = ("pk", "unit_id", "key", "version", "author_id", "review_state")


def evidence_overview(unit_pks: Iterable[int]) -> dict[int, list[Row]]:
    """By unit, its rows kind by kind, as they were entered; one without any is left out."""
    pks = list(unit_pks)
    first, *others = (_columns(model, pks) for model in EVIDENCE)
    found: dict[int, list[Row]] = {}
    every = sorted(first.union(*others, all=True), key=lambda row: (PLACES[row[0]], row[1]))
    for kind, _, unit, key, version, author, state in every:
        found.setdefault(unit, []).append(Row(f"{kind}/{key}", version, author, state))
    return found


def _columns(model, pks):
    named = model.objects.filter(unit_id__in=pks).order_by().annotate(
        overview_kind=Value(model._meta.model_name))
    return named.values_list("overview_kind", *COLUMNS)
