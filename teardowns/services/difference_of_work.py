"""What an open correction has changed so far, beside the version that it starts from."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.verdict_changes import VerdictChanges, verdict_changes
from teardowns.models import Assessment, Correction, Publication, Unit

from .export_unit import unit_document

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Difference:
    """Two states of a unit; the fields are the arguments of presenting's `difference_sheet`."""

    was: Document
    now: Document
    moved: VerdictChanges | None         # None where no reports are compared

    @property
    def arguments(self) -> tuple[Document, Document, VerdictChanges | None]:
        return self.was, self.now, self.moved


def difference_of_work(unit: Unit) -> Difference | None:
    """The working copy against the base of the open correction; None where none is open.

    Both with all evidence that is not disputed, under the rulebook of the newest assessment.
    """
    correction = unit.work.correction
    if correction is None:
        return None
    return difference_of_correction(correction, unit)


def difference_of_correction(correction: Correction, unit: Unit) -> Difference:
    """What a correction proposes, or proposed, against the version that it started from.

    One that ended unpublished is told by what was kept of it, without verdicts.
    """
    if correction.is_open:
        base = Publication.objects.select_related("standing_all").get(pk=correction.base_id)
        newest = Assessment.objects.filter(unit=unit, confirmed_only=False).first()
        moved = verdict_changes(base.standing_all.payload, newest.payload) if newest else None
        return Difference(_full(base.document), unit_document(unit), moved)
    kept = (correction.proposal or {}).get("document") or correction.base.document
    return Difference(_full(correction.base.document), _full(kept), None)


def difference_of_versions(was: Publication, now: Publication) -> Difference:
    """Two versions with what was said of each on its day."""
    return Difference(_full(was.document), _full(now.document),
                      verdict_changes(was.assessment.payload, now.assessment.payload))


def _full(document: Document) -> dict[str, Any]:
    """By the form of today: what was added to it since is at its default."""
    return full(document, unit_schema())
