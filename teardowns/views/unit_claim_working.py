"""How one claim of one unit was judged."""
from django.http import Http404
from django.shortcuts import render

from teardowns.exchange.verdict import verdicts
from teardowns.models import Unit
from teardowns.presenting.claim_sheet import claim_sheet
from teardowns.presenting.sheet_version import sheet_version
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.shown_unit import shown_unit
from teardowns.views.kept_pages import kept_with_unit
from teardowns.views.recomputed import claim_working


@kept_with_unit
def unit_claim_working(request, pk, key):
    shown = shown_unit(request.user, pk, request.GET.get("version", ""),
                       Unit.objects.with_active_set())
    rules = rulebook_beside(shown.live)
    trace = claim_working(shown.document, rules, f"claim/{key}", shown.confirmed_only)
    if trace is None:
        raise Http404("This unit has no such claim, or no rule judges it.")
    report, = verdicts([shown.document], shown.confirmed_only, rules)
    sheet = claim_sheet(shown.unit, report, trace)
    return render(request, "teardowns/unit_claim_working.html",
                  sheet | sheet_version(shown.assessment, report))
