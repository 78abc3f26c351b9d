"""Ask for two records of one specimen to be merged; another moderator decides."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.moderation_forms import MergeForm
from teardowns.services.merge_units import ask_merge
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow


@once
def unit_merge(request, pk):
    unit = access.unit_to_moderate(request.user, pk)
    form = MergeForm(request.POST if request.method == "POST" else None,
                     use_required_attribute=False)
    if form.is_bound and form.is_valid() and _asked(request, pk, form):
        return redirect("approvals")
    return render(request, "teardowns/unit_merge.html", {"unit": unit, "form": form})


def _asked(request, pk, form):
    try:
        ask_merge(moderator=request.user, unit_pk=pk, into_pk=form.cleaned_data["into"],
                  reason=form.cleaned_data["reason"])
    except (NotNow, NoReason, Http404) as refusal:
        form.add_error("into", str(refusal))
        return False
    messages.success(request, "Asked. Nothing is merged before another moderator approves.")
    return True
