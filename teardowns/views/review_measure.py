"""A second reading of one row, typed without the first one in sight; both stay."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse

from core.once import once
from teardowns.forms.review_forms import SecondReadingForm
from teardowns.presenting.links import anchor
from teardowns.presenting.review_items import item_kinds
from teardowns.services.decide_evidence import (
    NotDecided,
    can_be_measured,
    decide_evidence,
)
from teardowns.services.review_rows import row_under_review, unit_under_review
from teardowns.views.review_sheet import KINDS, sources_of

TELLS = ("Value", "Note")          # what could give the first reading away


@once
def review_measure(request, pk, kind, key):
    unit = unit_under_review(request.user, pk)
    row = row_under_review(unit, request.user, kind, key)
    if row is None or not can_be_measured(row) or row.author_id == request.user.pk:
        raise Http404("No such row to measure once more.")
    form = SecondReadingForm(request.POST if request.method == "POST" else None, row=row)
    if form.is_bound and form.is_valid() and _kept(request, unit, row, form):
        return redirect(f"{reverse('review_sheet', args=[pk])}#{anchor(row.ref)}")
    item = _item(request, unit, row, kind)
    return render(request, "teardowns/review_measure.html", {
        "unit": unit, "item": item, "form": form, "version": row.version,
        "known": [cell for cell in item.cells if cell.label not in TELLS]})


def _item(request, unit, row, kind):
    rows = {name: [row] if name == kind else [] for name in KINDS}
    _, sources = sources_of(request.user, unit, rows)
    return item_kinds(rows, sources)[0].items[0]


def _kept(request, unit, row, form):
    version = request.POST.get("version", "")
    try:
        decide_evidence(
            reviewer=request.user, unit_pk=unit.pk, ref=row.ref, decision="remeasured",
            version=int(version) if version.isdecimal() else 0, reading=form.reading,
            reason=form.cleaned_data["reason"])
    except NotDecided as error:
        form.add_error(None, str(error))
        return False
    messages.success(request, "Your reading stands beside the first one now.")
    return True
