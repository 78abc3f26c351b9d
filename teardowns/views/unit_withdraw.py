"""Withdraw a public unit: its contributor retracts it, or a moderator decides; a tombstone stays.
"""
from django.contrib import messages
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.version_forms import WithdrawForm
from teardowns.services.state_reasons import NoReason
from teardowns.services.withdraw_unit import withdraw_unit
from teardowns.workflow import NotNow

DONE = "“{}” is withdrawn. Its address tells why."


@once
def unit_withdraw(request, pk):
    unit = access.unit_to_withdraw(request.user, pk)
    form = WithdrawForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid() and _withdrawn(request, unit, form):
        return redirect("unit_detail", unit.pk)
    return render(request, "teardowns/unit_withdraw.html", {
        "unit": unit, "form": form, "is_own": unit.contributor_id == request.user.pk,
        "correction": unit.work.correction})


def _withdrawn(request, unit, form):
    """Whether it is; else the form says why not."""
    try:
        withdraw_unit(by=request.user, unit_pk=unit.pk, **form.cleaned_data)
    except (NotNow, NoReason) as refusal:
        form.add_error(None, str(refusal))
        return False
    messages.success(request, DONE.format(unit.title))
    return True
