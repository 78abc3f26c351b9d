"""Assess public versions under the rules in force, after rules, habits or scenarios changed.

The evidence of a version never changes, so what is kept is only which assessment stands beside it
now, and where a verdict word or the level moved, that it did. Slices are whole transactions and
what is known already is not computed again: a run that broke off goes on, and one run twice does
nothing the second time.
"""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db import transaction

from teardowns.engine.rulebook import Rulebook
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.verdict_changes import verdict_changes
from teardowns.models import Assessment, Publication, StandingChange, Unit

from .active_rulebook import active_rulebook
from .assess_units import assess_units, assessments_of
from .list_units import list_units

SLICE = 10          # units a transaction, half a second: SQLite has one writer, and others wait


def reassess_slice(after_pk: int = 0, size: int = SLICE) -> int | None:
    """The units that follow this one, their public versions and then their rows as they are.

    The last unit of the slice, to go on from; None when it was the last of all.
    """
    with transaction.atomic():
        # All locked before the clock of the listing is, on which a publication may wait.
        units = list(Unit.objects.select_for_update().filter(pk__gt=after_pk).order_by("pk")[:size])
        reassess_publications(unit.publication_id for unit in units if unit.publication_id)
        assess_units(units)       # last, so that their newest assessment is that of the rows
    return units[-1].pk if len(units) == size else None


@transaction.atomic
def reassess_publications(pks: Iterable[int | None]) -> int:
    """How many of these versions stand otherwise than before."""
    wanted = sorted(pk for pk in pks if pk is not None)
    unit_pks = Publication.objects.filter(pk__in=wanted).values_list("unit", flat=True)
    units = Unit.objects.select_for_update().order_by("pk").in_bulk(list(unit_pks))
    found = list(Publication.objects.select_for_update().filter(pk__in=wanted).order_by("pk"))
    for publication in found:
        publication.unit = units[publication.unit_id]
    before = {publication.pk: publication.standing_id for publication in found}
    moved = _stand(found, active_rulebook())
    _tell(moved, before)
    list_units(publication.unit_id for publication in moved)
    return len(moved)


def _stand(found: list[Publication], rules: Rulebook) -> list[Publication]:
    """Those of the versions that another assessment stands beside now."""
    units = [publication.unit for publication in found]
    documents = [_document(publication) for publication in found]
    confirmed = assessments_of(units, documents, True, rules)
    everything = assessments_of(units, documents, False, rules)
    moved = []
    for publication, one, whole in zip(found, confirmed, everything, strict=True):
        if (publication.standing_id, publication.standing_all_id) != (one.pk, whole.pk):
            publication.standing, publication.standing_all = one, whole
            moved.append(publication)
    Publication.objects.bulk_update(moved, ["standing", "standing_all"])
    return moved


def _document(publication: Publication) -> dict[str, Any]:
    """Full by the form of today: what was added to the form since is at its default."""
    return full(publication.document, unit_schema())


def _tell(moved: list[Publication], before: dict[int, int]) -> None:
    """before : by version, the assessment that stood beside it"""
    stood = Assessment.objects.in_bulk([before[publication.pk] for publication in moved])
    rows = []
    for publication in moved:
        was, now = stood[before[publication.pk]], publication.standing
        words, levels = moved_words(was, now)
        if words or levels:
            rows.append(StandingChange(publication=publication, was=was, now=now,
                                       rulebook=now.rulebook, words=words, levels=levels))
    StandingChange.objects.bulk_create(rows)


def moved_words(was: Assessment, now: Assessment) -> tuple[list[list[str]], list[str]]:
    """Each claim whose verdict word moved, as printed, with both words; and both levels, if they
    differ. "" is what is not judged, or no level."""
    found = verdict_changes(was.payload, now.payload)
    words = [[_name(one.now or one.was), *(side["verdict"] if side else ""
                                           for side in (one.was, one.now))]
             for one in found.words]
    return words, [found.level.was or "", found.level.now or ""] if found.level else []


def _name(claim):
    return claim["printed"] or claim["text"]
