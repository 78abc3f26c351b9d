"""A moderator makes a withdrawn unit public again."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.version_forms import ReinstateForm
from teardowns.models import Status
from teardowns.presenting.tombstone_sheet import tombstone_sheet
from teardowns.services.reinstate_unit import last_withdrawal, reinstate_unit
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow

DONE = "“{}” is public again, as it was."


@once
def unit_reinstate(request, pk):
    unit = access.unit_to_moderate(request.user, pk)
    if unit.status != Status.WITHDRAWN:
        raise Http404("This unit is not withdrawn.")
    form = ReinstateForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid() and _public_again(request, unit, form):
        return redirect("unit_detail", unit.pk)
    return render(request, "teardowns/unit_reinstate.html", {
        "unit": unit, "form": form, "sheet": tombstone_sheet(unit, last_withdrawal(unit))})


def _public_again(request, unit, form):
    """Whether it is; else the form says why not."""
    try:
        reinstate_unit(moderator=request.user, unit_pk=unit.pk, **form.cleaned_data)
    except (NotNow, NoReason) as refusal:
        form.add_error(None, str(refusal))
        return False
    messages.success(request, DONE.format(unit.title))
    return True
