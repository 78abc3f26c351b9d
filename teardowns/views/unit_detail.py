"""One unit: the answer, then its proof."""
from django.shortcuts import render

from teardowns import access
from teardowns.models import EVIDENCE
from teardowns.presenting.unit_sheet import unit_sheet


def unit_detail(request, pk):
    unit = access.unit_to_see(request.user, pk)
    assessment = unit.assessments.filter(confirmed_only=False).first()
    return render(
        request, "teardowns/unit_detail.html", unit_sheet(unit, assessment, evidence_rows(unit))
    )


def evidence_rows(unit):
    """The unit's evidence by kind, one query each, with whatever its rows name."""
    return {model._meta.model_name: list(_named(model, unit)) for model in EVIDENCE}


def _named(model, unit):
    cited = [field.name for field in model._meta.fields if field.many_to_one]
    return model.objects.filter(unit=unit).select_related(*cited)
