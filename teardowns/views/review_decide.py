"""Keep decisions: of the whole form without a script, or of one row, answered in JSON."""
from django.contrib import messages
from django.http import JsonResponse
from django.shortcuts import redirect
from django.template.loader import render_to_string
from django.urls import reverse

from teardowns.forms.review_forms import DecisionForm
from teardowns.models import PhotoReading
from teardowns.services.decide_evidence import ChangedRow, NotDecided, Reading, decide_evidence
from teardowns.services.review_rows import unit_under_review
from teardowns.views.review_sheet import sheet_and_items, sheet_page

MEASURE_FIRST = "Measure it first: the link stands beside the row."


def review_decide(request, pk):
    """The same decision sent twice is kept once, so no form needs a number of its own."""
    unit = unit_under_review(request.user, pk)
    only = request.POST.get("only", "")
    if "application/json" in request.headers.get("Accept", ""):
        return _answered(request, unit, only)
    _, items = sheet_and_items(request, unit)
    refs = [ref for ref in items if f"{ref}-decision" in request.POST]
    forms = {ref: DecisionForm(request.POST, prefix=ref) for ref in refs}
    kept = sum(_decided(request, unit, ref, form) for ref, form in forms.items()
               if _is_said(form, items[ref]))
    wrong = {ref: form for ref, form in forms.items() if form.errors}
    if kept:
        messages.success(request, f"{kept} decision{'s' if kept != 1 else ''} saved.")
    unit = unit_under_review(request.user, pk)
    if wrong:
        return sheet_page(request, unit, wrong)
    return redirect(_next(request, unit))


def _is_said(form, item):
    """Whether something else is said than stands already; a wrong form says its errors."""
    if not form.is_valid():
        return False
    said = (form.cleaned_data["decision"], form.cleaned_data["reason"])
    return said[0] != "" and said != (item.decision, item.reason)


def _decided(request, unit, ref, form):
    """1 where the decision is kept; else its reason is an error of the form."""
    words = form.cleaned_data
    try:
        return int(decide_evidence(
            reviewer=request.user, unit_pk=unit.pk, ref=ref, version=words["version"],
            decision=words["decision"], reason=words["reason"],
            reading=_reading(request, unit, ref, words["decision"])).is_new)
    except ChangedRow as error:
        form.is_stale = True
        form.add_error(None, str(error))
    except NotDecided as error:
        form.add_error(None, str(error))
    return 0


def _reading(request, unit, ref, decision):
    """The length that the reviewer read off the photo last, without having seen the first one."""
    if decision != "remeasured":
        return None
    read = PhotoReading.objects.filter(photo__unit=unit, shows=ref, blind=True,
                                       author=request.user).order_by("-pk").first()
    if read is None:
        raise NotDecided(MEASURE_FIRST)
    return Reading(read.value, read.uncertainty)


def _next(request, unit):
    """The page as it was asked for, at the first item that is still open."""
    sheet, _ = sheet_and_items(request, unit)
    query = f"?{sheet['query']}" if sheet["query"] else ""
    return f"{reverse('review_sheet', args=[unit.pk])}{query}#{sheet['next'] or 'close'}"


def _answered(request, unit, ref):
    form = DecisionForm(request.POST, prefix=ref)
    if not form.is_valid() or not form.cleaned_data["decision"]:
        if not form.errors:
            form.add_error("decision", "Choose a decision.")
        return _refused(form)
    _decided(request, unit, ref, form)
    if form.errors:
        return _refused(form)
    sheet, items = sheet_and_items(request, unit_under_review(request.user, unit.pk))
    part = {"item": items[ref], **sheet}
    return JsonResponse({
        "ref": ref, "told": sheet["told"], "isDone": sheet["is_done"], "next": sheet["next"],
        **{name: render_to_string(f"teardowns/_review_{name}.html", part)
           for name in ("said", "progress", "sides")}})


def _refused(form):
    errors = {name: " ".join(found) for name, found in form.errors.items()}
    return JsonResponse({"errors": errors, "isStale": getattr(form, "is_stale", False)},
                        status=422)
