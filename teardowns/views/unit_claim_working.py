"""How one claim of one unit was judged."""
from django.http import Http404
from django.shortcuts import render

from teardowns import access
from teardowns.exchange.verdict import verdicts
from teardowns.models import Unit
from teardowns.presenting.claim_sheet import claim_sheet
from teardowns.presenting.sheet_version import sheet_version
from teardowns.services.export_unit import unit_document
from teardowns.views.recomputed import claim_working


def unit_claim_working(request, pk, key):
    unit = access.unit_to_see(request.user, pk, Unit.objects.with_stored_version())
    document = unit_document(unit)
    trace = claim_working(document, f"claim/{key}")
    if trace is None:
        raise Http404("This unit has no such claim, or no rule judges it.")
    report, = verdicts([document])
    sheet = claim_sheet(unit, report, trace)
    return render(
        request, "teardowns/unit_claim_working.html", sheet | sheet_version(unit, report)
    )
