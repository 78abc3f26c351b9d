"""Propose a correction of a public unit: say what is wrong, then write it on the bench."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.sections import SECTIONS
from teardowns.forms.version_forms import CorrectionForm
from teardowns.models import Unit
from teardowns.services.open_correction import open_correction, sentence_of_open
from teardowns.services.state_reasons import NoReason
from teardowns.views.tombstone import tombstone
from teardowns.workflow import NotNow

OPENED = ("The bench of this record is yours now. Change what is wrong, then hand it in; until it "
          "is published everybody sees the record as it is.")


@once
def unit_correct(request, pk):
    return tombstone(request, pk) or _correct(request, pk)


def _correct(request, pk):
    unit = access.unit_to_see(request.user, pk, Unit.objects.select_related("publication"))
    if unit.publication_id is None:
        raise Http404("This unit is not public.")
    taken = unit.work.correction
    if request.method == "GET" and taken and taken.author_id == request.user.pk:
        return redirect("bench_section", unit.pk, SECTIONS[0].slug)
    form = CorrectionForm(request.POST or None, earlier=_earlier(request.user, unit))
    if request.method == "POST" and form.is_valid() and _opened(request, unit, form):
        return redirect("bench_section", unit.pk, SECTIONS[0].slug)
    return render(request, "teardowns/unit_correct.html", {
        "unit": unit, "form": form, "open": taken and sentence_of_open(taken, request.user)})


def _opened(request, unit, form):
    """Whether it is; else the form says why not."""
    try:
        open_correction(author=request.user, unit_pk=unit.pk, **form.cleaned_data)
    except (NotNow, NoReason) as refusal:
        form.add_error(None, str(refusal))
        return False
    messages.success(request, OPENED)
    return True


def _earlier(user, unit):
    """Own corrections of the version that stands, which came to nothing."""
    return list(unit.corrections.filter(
        author=user.pk, base=unit.publication_id, proposal__isnull=False).defer("proposal")[:20])
