"""The calculation sheet behind one line of evidence, one check or one grade."""
from django.http import Http404
from django.shortcuts import render
from django.urls import reverse

from teardowns.engine import rulebook
from teardowns.engine.judging import ENDS
from teardowns.engine.rule import CHECK, SAFETY
from teardowns.exchange.verdict import verdicts
from teardowns.models import Unit
from teardowns.presenting.evidence_names import cited_rows
from teardowns.presenting.method_sheet import rule_anchor
from teardowns.presenting.safety_sheet import safety_sheet
from teardowns.presenting.sheet_version import sheet_version
from teardowns.presenting.working_sheet import check_sheet, working_sheet
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.shown_unit import shown_unit
from teardowns.views.kept_pages import kept_with_unit
from teardowns.views.recomputed import line_working, safety_working


@kept_with_unit
def unit_working(request, pk, line_id, end):
    rule = rule_or_404(line_id, end)
    shown = shown_unit(request.user, pk, request.GET.get("version", ""),
                       Unit.objects.with_active_set())
    unit, document = shown.unit, shown.document
    rules = rulebook_beside(shown.live)
    report, = verdicts([document], shown.confirmed_only, rules)
    if rule.kind == SAFETY:
        sheet = _safety_sheet(request, shown, rules, line_id)
        sheet |= sheet_version(shown.assessment, report)
        return render(request, "teardowns/unit_safety_working.html", sheet)
    if rule.kind == CHECK:
        sheet = check_sheet(unit, report, rule)
    else:
        claim = claim_asked(request)
        trace = line_working(document, rules, line_id, end, claim, shown.confirmed_only)
        if trace is None:
            raise Http404("This line has no value for this unit at this end of the mains range.")
        sheet = working_sheet(unit, report, trace, end, claim, cited_rows(document))
    return render(request, "teardowns/unit_working.html", sheet | sheet_version(
        shown.assessment, report))


def _safety_sheet(request, shown, rules, line_id):
    trace = safety_working(shown.document, rules, line_id, shown.confirmed_only)
    sheet = safety_sheet(shown.unit, trace, request.GET.get("of", ""),
                         cited_rows(shown.document))
    if sheet is None:
        raise Http404("This rule says nothing of such a part of this unit.")
    return sheet | {"method": f"{reverse('method')}#{rule_anchor(line_id)}"}


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
