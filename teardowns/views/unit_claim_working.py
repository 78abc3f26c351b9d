"""How one claim of one unit was judged."""
from django.http import Http404
from django.shortcuts import render

from teardowns import access
from teardowns.exchange.verdict import verdicts
from teardowns.models import Unit
from teardowns.presenting.claim_sheet import claim_sheet
from teardowns.presenting.sheet_version import sheet_version
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.export_unit import unit_document
from teardowns.views.recomputed import claim_working


def unit_claim_working(request, pk, key):
    units = Unit.objects.with_stored("rulebook", "evidence_digest").with_active_set()
    unit = access.unit_to_see(request.user, pk, units)
    document = unit_document(unit)
    rules = rulebook_beside(unit)
    trace = claim_working(document, rules, f"claim/{key}")
    if trace is None:
        raise Http404("This unit has no such claim, or no rule judges it.")
    report, = verdicts([document], rules=rules)
    sheet = claim_sheet(unit, report, trace)
    return render(
        request, "teardowns/unit_claim_working.html", sheet | sheet_version(unit, report)
    )
