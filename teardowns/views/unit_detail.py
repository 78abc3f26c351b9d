"""One unit: the answer, then its proof."""
from django.shortcuts import render

from teardowns import access
from teardowns.models import EVIDENCE, Assessment, Unit
from teardowns.presenting.photo_sheet import gallery
from teardowns.presenting.unit_sheet import unit_sheet
from teardowns.services.confirmations import confirmations

STORED = ("pk", "rulebook", "evidence_digest", "created_at", "payload")


def unit_detail(request, pk):
    unit = access.unit_to_see(request.user, pk, Unit.objects.with_stored(*STORED).with_logs())
    assessment = stored_assessment(unit)
    rows = evidence_rows(unit)
    sheet = unit_sheet(unit, assessment, rows, confirmed(unit, assessment, rows))
    return render(request, "teardowns/unit_detail.html", {**sheet, "gallery": gallery(unit)})


def stored_assessment(unit):
    """The assessment that came with the unit, or None: one question less of the database."""
    if unit.stored_pk is None:
        return None
    return Assessment(unit=unit, **{name: getattr(unit, f"stored_{name}") for name in STORED})


def confirmed(unit, assessment, rows):
    """By scenario, how many independent reviewers confirmed all that its finding rests on."""
    findings = assessment.payload.get("safety", {}).get("findings") if assessment else None
    if not findings:
        return {}
    by_ref = {row.ref: row for found in rows.values() for row in found}
    return confirmations(unit, findings, by_ref)


def evidence_rows(unit):
    """The unit's evidence by kind, one query each, with whatever its rows name."""
    return {model._meta.model_name: list(_named(model, unit)) for model in EVIDENCE}


def _named(model, unit):
    cited = [field.name for field in model._meta.fields if field.many_to_one]
    return model.objects.filter(unit=unit).select_related(*cited)
