"""Which state of a unit a page shows: the version that stands, an older one, the working copy."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.http import Http404

from core.whole_number import whole_number
from teardowns import access
from teardowns.models import EVIDENCE, Assessment, Publication, Status, Unit

from .export_unit import unit_document
from .thaw import Thawed, thaw

WORKING = "working"          # said of a version: the rows as they are being worked on


@dataclass(frozen=True)
class Shown:
    """A unit, its evidence and its assessment, all of the same state."""

    live: Any                            # the unit as the database has it
    publication: Publication | None      # None: the working copy
    thawed: Thawed | None
    assessment: Assessment | None        # what the page's numbers come from
    with_rest: Assessment | None         # the same with the evidence that nobody confirmed yet

    @property
    def unit(self) -> Unit:
        return self.thawed.unit if self.thawed else self.live

    @property
    def confirmed_only(self) -> bool:
        """Whether only confirmed evidence counts: in public it does."""
        return self.publication is not None

    @property
    def is_newest(self) -> bool:
        return self.publication is not None and self.publication.pk == self.live.publication_id

    @cached_property
    def newest(self) -> Publication | None:
        """The version that stands, beside an older one that is shown; None beside any other."""
        if self.publication is None or self.is_newest:
            return None
        return Publication.objects.only("number", "document").get(pk=self.live.publication_id)

    @cached_property
    def rows(self) -> dict[str, list[Any]]:
        """Evidence by kind, with whatever its rows name."""
        if self.thawed:
            return self.thawed.evidence
        return {str(model._meta.model_name): list(_named(model, self.live)) for model in EVIDENCE}

    @cached_property
    def document(self) -> Mapping[str, Any]:
        return self.publication.document if self.publication else unit_document(self.live)


def shown_unit(user: Any, pk: int, version: str = "", units: Any = None) -> Shown:
    """What this person gets to see of a unit. Raises Http404.

    version : "" for what stands, the number of a version, or "working"
    """
    if version == WORKING:
        return working_copy(access.unit_working_copy(user, pk, units))
    unit = access.unit_to_see(user, pk, units)
    if version:
        return as_published(unit, _version(unit, version))
    if unit.publication_id and unit.status in (Status.PUBLISHED, Status.WITHDRAWN):
        return as_published(unit, _standing(unit.publication_id))
    return working_copy(unit)


def working_copy(unit: Unit) -> Shown:
    """The rows as they are, assessed with all that is not disputed."""
    unit.version_shown = WORKING if unit.publication_id else ""
    return Shown(unit, None, None, unit.assessments.filter(confirmed_only=False).first(), None)


def as_published(unit: Unit, publication: Publication) -> Shown:
    """A version: the newest with its evidence under the rulebook in force, an older one as it was.
    """
    publication.unit = unit
    thawed = thaw(publication)
    if publication.pk == unit.publication_id:
        return Shown(unit, publication, thawed, publication.standing, publication.standing_all)
    thawed.unit.version_shown = str(publication.number)
    return Shown(unit, publication, thawed, publication.assessment, publication.assessment_all)


def _standing(pk):
    related = ("standing", "standing_all", "assessment", "likeness", "sister_report")
    # What it said on its day is asked for only where another rulebook has come into force since.
    return Publication.objects.select_related(*related).defer(
        "assessment__payload", "likeness__features").get(pk=pk)


def _version(unit, number):
    if whole_number(number, 6) is None:
        raise Http404("No such version.")
    found = unit.publications.select_related("standing", "standing_all", "assessment",
                                             "assessment_all").filter(number=number).first()
    if found is None or unit.status != Status.PUBLISHED:
        raise Http404("No such version.")
    return found


def _named(model, unit):
    cited = [field.name for field in model._meta.fields if field.many_to_one]
    return model.objects.filter(unit=unit).select_related(*cited)
