"""Bench sheets as JSON."""
from typing import Any

from django.urls import reverse

from teardowns.api.sections import texts_of
from teardowns.forms.sections import SECTIONS
from teardowns.forms.unit_form import LABELS, UnitForm
from teardowns.models import Unit, Work
from teardowns.workflow import OPEN


def sheet(unit: Unit, status: str, is_own: bool, correction: int | None) -> dict[str, Any]:
    is_open = is_own and status in OPEN and unit.quarantined_at is None
    return {
        "unit": unit.pk, "href": reverse("api_bench", args=[unit.pk]),
        "page": reverse("bench_section", args=[unit.pk, SECTIONS[0].slug]) if is_open
        else reverse("bench_submit", args=[unit.pk]),
        "title": unit.title, "status": status, "is_open": is_open, "correction": correction,
        "version": unit.version}


def sheet_of(unit: Unit, work: Work) -> dict[str, Any]:
    """Of the person whose work it is."""
    correction = work.correction.pk if work.correction else None
    return sheet(unit, work.status, True, correction)


def unit_fields(unit: Unit) -> dict[str, Any]:
    """The unit's own fields, as the page shows them in its boxes."""
    texts = texts_of(UnitForm(names=list(LABELS), unit=unit))
    texts.pop("version")
    return {"unit": unit.pk, "version": unit.version, "fields": texts}
