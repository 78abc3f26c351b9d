"""Flagged hazards for reviewers: the gravest first, then the furthest spread, then the surest.

Last come those without a level: what falls short and has no scenario, and flags.
"""
from django.core.paginator import Paginator
from django.db.models import F, Q
from django.shortcuts import render

from teardowns.engine.risk import ILLUSTRATION
from teardowns.engine.safety_words import DEFERRAL
from teardowns.models import Assessment, Status, Unit
from teardowns.presenting.hazard_rows import hazard_rows
from teardowns.presenting.unit_rows import with_newest_assessment
from teardowns.services.active_rulebook import active_rulebook

PAGE_SIZE = 25
LOOKED_AT = (Status.SUBMITTED, Status.IN_REVIEW, Status.PUBLISHED)


def hazard_list(request):
    page = Paginator(flagged_units(), PAGE_SIZE).get_page(request.GET.get("page"))
    units = list(page.object_list)
    assessments = Assessment.objects.in_bulk([unit.assessment for unit in units])
    return render(request, "teardowns/hazard_list.html", {
        "rows": hazard_rows(units, assessments, active_rulebook().version), "page": page,
        "illustration": ILLUSTRATION, "deferral": DEFERRAL,
        "earlier": page.has_previous() and f"?page={page.number - 1}",
        "later": page.has_next() and f"?page={page.number + 1}",
    })


def flagged_units():
    """Units with a finding or a flag, in the order in which they are looked at."""
    units = with_newest_assessment(Unit.objects.filter(status__in=LOOKED_AT))
    flagged = units.annotate(risk=F("assessments__risk"), assessment=F("assessments__pk"),
                             certainty=F("assessments__risk_certainty"),
                             flags=F("assessments__flags"))
    return flagged.filter(Q(risk__gt=0) | Q(flags__gt=0)).order_by(
        "-risk", F("listing_reach").desc(nulls_last=True), F("certainty").desc(nulls_last=True),
        "pk")
