"""The bench sheets that a person has open, and the way to a new one."""
from django.db.models import OuterRef, Subquery
from django.shortcuts import render

from teardowns.access import CHANGEABLE
from teardowns.figures.marks import verdict_chip
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.sections import SECTIONS
from teardowns.models import Assessment, Unit

MOST_SHEETS = 200


def bench_list(request):
    latest = Assessment.objects.filter(unit=OuterRef("pk"), confirmed_only=False)
    units = (
        Unit.objects.filter(contributor=request.user, status__in=CHANGEABLE)
        .annotate(verdict=Subquery(latest.values("verdict")[:1]))
        .order_by("-changed_at")[:MOST_SHEETS]
    )
    sheets = [
        {"unit": unit, "verdict": verdict_chip(unit.verdict) if unit.verdict else "",
         "changed": f"{unit.changed_at:%Y-%m-%d %H:%M} UTC"} for unit in units
    ]
    return render(request, "teardowns/bench_list.html", {
        "sheets": sheets, "first": SECTIONS[0].slug, "deferral": DEFERRAL,
    })
