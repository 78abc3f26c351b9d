"""Versions that everybody may read, many at once."""
from __future__ import annotations

from collections.abc import Sequence

from django.db.models import F, Q

from teardowns.models import Assessment, Publication, Status

Asked = tuple[int, int | None]           # a unit, and the number of a version or None: what stands


def public_versions(asked: Sequence[Asked]) -> list[Publication]:
    """In the order asked for, with unit, contributor and assessments; what is not public is left
    out. One query."""
    wanted = Q(pk=None)
    for unit, number in asked:
        wanted |= Q(unit=unit, pk=F("unit__publication")) if number is None else Q(
            unit=unit, number=number)
    found = Publication.objects.filter(
        wanted, unit__status=Status.PUBLISHED, unit__quarantined_at=None,
    ).select_related("unit__contributor", "standing", "standing_all", "assessment",
                     "assessment_all").defer("document", "frozen", "words")
    by_version = {(one.unit_id, one.number): one for one in found}
    standing = {one.unit_id: one for one in found if one.pk == one.unit.publication_id}
    each = (standing.get(unit) if number is None else by_version.get((unit, number))
            for unit, number in asked)
    return list(dict.fromkeys(one for one in each if one is not None))


def shown_assessments(publication: Publication) -> tuple[Assessment, Assessment]:
    """What a version's page shows: under the rulebook in force where it stands, else of its day;
    of confirmed evidence, and of all."""
    if publication.pk == publication.unit.publication_id:
        return publication.standing, publication.standing_all
    return publication.assessment, publication.assessment_all
