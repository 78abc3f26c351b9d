"""One account: its record, suspension with a statement, and a role proposed to a second person."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse

from core.accounts.models import Role
from core.once import once
from teardowns.forms.moderation_forms import RoleForm, RoomForm
from teardowns.models import Decision as Decided
from teardowns.presenting.people_rows import person_row
from teardowns.presenting.room_words import room_words, sizes
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.account_room import TIMES, give_room, room_of
from teardowns.services.grant_role import propose_role, roles_to_propose
from teardowns.services.moderated_files import accounts_with_same_files
from teardowns.services.people import accounts
from teardowns.services.state_reasons import NoReason
from teardowns.services.suspend_account import lift_suspension, may_suspend, suspend_account
from teardowns.workflow import NotNow

from .decision_steps import Decision

SHOWN = 20


@once
def person(request, pk):
    found = accounts().filter(pk=pk).first()
    if found is None:
        raise Http404("No such account.")
    roles = [(role, Role(role).label) for role in roles_to_propose(request.user, found)]
    form = RoleForm(request.POST if request.POST.get("act") == "role" else None, roles=roles)
    if form.is_bound and form.is_valid() and _proposed(request, found, form):
        return redirect("person", pk)
    room = _room_form(request, found)
    if room and room.is_bound and room.is_valid():
        give_room(moderator=request.user, person_pk=pk, **room.cleaned_data)
        messages.success(request, "The account has that room from now on.")
        return redirect("person", pk)
    decision = _suspension(request, found) if may_suspend(request.user, found) else None
    if decision and decision.done:
        return redirect("person", pk)
    said = found.statements.select_related("unit")[:SHOWN] if request.user.has_role(
        Role.MODERATOR) else []
    return render(request, "teardowns/person.html", {
        "row": person_row(found), "person": found, "decision": decision, "roles": roles,
        "form": form, "statements": [statement_sheet(one) for one in said],
        "linked": [(reverse("person", args=[pk]), name, n)
                   for pk, name, n in accounts_with_same_files(found.pk)],
        "room": room, "room_said": room_words(room_of(found)) if room else "",
        "is_self": found.pk == request.user.pk})


def _suspension(request, found):
    act, what, words = ((lift_suspension, Decided.LIFT, "Lift the suspension")
                        if found.is_suspended
                        else (suspend_account, Decided.SUSPEND, "Suspend the account"))
    return Decision(
        request, [(what, words)],
        lambda _: {"decision": what, "subject": f"user/{found.pk}", "addressee": found},
        lambda _, code, facts: act(moderator=request.user, person_pk=found.pk, code=code,
                                   facts=facts))


def _room_form(request, found):
    """For moderators, of somebody else's account."""
    if not request.user.has_role(Role.MODERATOR) or found.pk == request.user.pk \
            or found.deleted_at:
        return None
    given = request.POST if request.POST.get("act") == "room" else None
    return RoomForm(given, sizes=sizes(TIMES), initial={"times": found.room})


def _proposed(request, found, form):
    try:
        propose_role(by=request.user, person_pk=found.pk, **form.cleaned_data)
    except (NotNow, NoReason) as refusal:
        form.add_error(None, str(refusal))
        return False
    messages.success(request, "Asked. It is done when an administrator who is another approves; "
                              "until then you can take it back under Approvals.")
    return True
