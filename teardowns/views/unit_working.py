"""The calculation sheet behind one line of evidence or one check."""
from django.http import Http404
from django.shortcuts import render

from teardowns import access
from teardowns.engine import rulebook
from teardowns.engine.judging import ENDS
from teardowns.engine.rule import CHECK
from teardowns.exchange.verdict import verdicts
from teardowns.models import Unit
from teardowns.presenting.evidence_names import cited_rows
from teardowns.presenting.sheet_version import sheet_version
from teardowns.presenting.working_sheet import check_sheet, working_sheet
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.export_unit import unit_document
from teardowns.views.recomputed import line_working


def unit_working(request, pk, line_id, end):
    units = Unit.objects.with_stored_version().with_active_set()
    unit = access.unit_to_see(request.user, pk, units)
    rule = rule_or_404(line_id, end)
    document = unit_document(unit)
    rules = rulebook_beside(unit)
    report, = verdicts([document], rules=rules)
    if rule.kind == CHECK:
        sheet = check_sheet(unit, report, rule)
    else:
        claim = claim_asked(request)
        trace = line_working(document, rules, line_id, end, claim)
        if trace is None:
            raise Http404("This line has no value for this unit at this end of the mains range.")
        sheet = working_sheet(unit, report, trace, end, claim, cited_rows(document))
    return render(request, "teardowns/unit_working.html", sheet | sheet_version(unit, report))


def claim_asked(request):
    """Ref of the claim as whose evidence the line is read; "" for the largest claim."""
    key = request.GET.get("claim", "")
    return f"claim/{key}" if key else ""


def rule_or_404(line_id, end):
    if end not in ENDS:
        raise Http404("The mains range has a low end and a high end.")
    try:
        return rulebook.load()[line_id]
    except KeyError:
        raise Http404("The rulebook has no such rule.") from None
