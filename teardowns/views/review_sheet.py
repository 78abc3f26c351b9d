"""The one page on which a reviewer goes through every row of evidence."""
from django.shortcuts import render

from teardowns.forms.review_forms import CloseForm, DecisionForm
from teardowns.models import EVIDENCE
from teardowns.presenting.review_items import Sources
from teardowns.presenting.review_sheet import ALL, OPEN
from teardowns.presenting.review_sheet import review_sheet as sheet_of
from teardowns.reviewing.progress import progress
from teardowns.reviewing.words import Row
from teardowns.services.review_rows import (
    photos_of,
    rows_under_review,
    said_of,
    unit_under_review,
)

KINDS = [model._meta.model_name for model in EVIDENCE]


def review_sheet(request, pk):
    return sheet_page(request, unit_under_review(request.user, pk))


def sheet_page(request, unit, typed=None, close=None):
    """The page. typed : by ref, bound forms that hold errors, shown as they were typed."""
    sheet, _ = sheet_and_items(request, unit)
    typed = typed or {}
    sections = [{"kind": kind, "rows": [(item, typed.get(item.ref) or _form_of(item))
                                        for item in kind.items]} for kind in sheet["listed"]]
    return render(request, "teardowns/review_sheet.html", {
        **sheet, "sections": sections, "close": close or CloseForm(),
        "wrong": [(item, form) for section in sections for item, form in section["rows"]
                  if form.errors]})


def _form_of(item):
    return DecisionForm(prefix=item.ref,
                        initial={"decision": item.decision, "reason": item.reason})


def sheet_and_items(request, unit):
    """Context of the page, and every item by ref; ten queries with those that found the unit."""
    rows = rows_under_review(unit, request.user)
    came, sources = sources_of(request.user, unit, rows,
                               hide_values=request.GET.get("values") == "hidden")
    kind = request.GET.get("kind", "")
    show = OPEN if request.GET.get("show") == OPEN else ALL
    sheet = sheet_of(unit, rows, sources, came, kind if kind in KINDS else "", show)
    items = {item.ref: item for each in sheet["kinds"] for item in each.items}
    return sheet | {"query": request.GET.urlencode(), "hidden": sources.hide_values}, items


def sources_of(reviewer, unit, rows, hide_values=False):
    """How far the review of these rows is, and all that stands behind them."""
    said = said_of(unit)
    every = [row for kind in KINDS for row in rows.get(kind, ())]
    came = progress([Row(row.ref, row.version, row.author_id, row.review_state) for row in every],
                    [each.word for each in said], unit.work_author, unit.work_correction)
    by_ref = {}
    for each in said:
        by_ref.setdefault(each.word.ref, []).append(each)
    return came, Sources(
        unit, reviewer.pk, {each.row.ref: each for each in came.rows}, by_ref, photos_of(unit),
        (unit.held_sides or {}).get("rests", {}), hide_values)
