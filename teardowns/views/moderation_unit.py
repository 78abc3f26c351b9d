"""One record for a moderator: how its review stands, what was said of it, and what can be done."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone

from core.accounts.models import User
from core.once import once
from teardowns import access
from teardowns.forms.moderation_forms import HandOverForm
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.moderation_unit_sheet import unit_choices, unit_sheet
from teardowns.services.moderated_unit import cases_of, disputes_of, moderated_unit
from teardowns.services.publish_unit import publish_unit
from teardowns.services.review_state import review_state
from teardowns.services.take_charge import NO_MODERATOR, NotTheirs, hand_over, take_charge
from teardowns.workflow import NotNow

NOTE = 2000


@once
def moderation_unit(request, pk):
    access.unit_to_moderate(request.user, pk)
    act = ACTS.get(request.POST.get("act")) if request.method == "POST" else None
    errors = act(request, pk) if act else {}
    if act and not errors:
        return redirect("moderation_unit", pk)
    unit = moderated_unit(pk)
    state = review_state(unit)
    return render(request, "teardowns/moderation_unit.html", {
        **unit_sheet(unit, state, cases_of(unit), timezone.now()),
        "disputes": _disputes(unit) if state.disputed else (),
        "unit": unit, "choices": unit_choices(unit), "errors": errors,
        "note": request.POST.get("note", "")[:NOTE],
        "hand_over": errors.get("hand_over") or HandOverForm(),
    })


def _disputes(unit):
    """What each disputed row is called, and what was said against it."""
    names = evidence_called(unit)
    return [(names[ref], reason) for ref, reason in disputes_of(unit) if ref in names]


def _publish(request, pk):
    try:
        publication = publish_unit(moderator=request.user, unit_pk=pk,
                                   note=request.POST.get("note", "")[:NOTE].strip())
    except NotNow as refusal:
        return {"publish": str(refusal)}
    messages.success(request, f"Version {publication.number} is public. To undo it, withdraw the "
                              "record: every version is kept.")
    return {}


def _take(request, pk):
    take_charge(moderator=request.user, subject=f"unit/{pk}", unit_pk=pk)
    messages.success(request, "This case is yours now.")
    return {}


def _hand_over(request, pk):
    form = HandOverForm(request.POST)
    if not form.is_valid():
        return {"hand_over": form}
    to = User.objects.filter(username=form.cleaned_data["to"], deleted_at=None).first()
    try:
        if to is None:
            raise NotTheirs(NO_MODERATOR)
        hand_over(moderator=request.user, subject=f"unit/{pk}", to=to, unit_pk=pk)
    except NotTheirs as refusal:
        form.add_error("to", str(refusal))
        return {"hand_over": form}
    messages.success(request, f"Handed over to {to.get_username()}.")
    return {}


ACTS = {"publish": _publish, "take": _take, "hand-over": _hand_over}
