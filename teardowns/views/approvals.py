"""Actions that take two people: what waits, who asked, and the second person's decision."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone

from core.once import once
from core.whole_number import whole_number
from teardowns.models import Approval, ApprovalState
from teardowns.presenting.approval_sheet import approval_sheet, names_behind
from teardowns.services.ask_approval import take_back_approval
from teardowns.services.decide_approval import approve, may_decide_approval, refuse
from teardowns.services.moderation_desk import SHOWN, waiting_approvals
from teardowns.services.state_reasons import NoReason
from teardowns.workflow import NotNow

DECIDED = 20
ANSWER = 2000


@once
def approvals(request):
    error, asked = "", whole_number(request.POST.get("approval", ""))
    if asked is not None:
        error = _act(request, asked)
        if not error:
            return redirect("approvals")
    waiting = list(waiting_approvals(request.user)[:SHOWN])
    done = list(Approval.objects.exclude(state=ApprovalState.WAITING).select_related(
        "asked_by", "decided_by").order_by("-decided_at")[:DECIDED])
    names, now = names_behind([*waiting, *done]), timezone.now()
    return render(request, "teardowns/approvals.html", {
        "waiting": [approval_sheet(one, names, now) | {
            "may": may_decide_approval(request.user, one),
            "error": error if one.pk == asked else "",
            "answer": request.POST.get("answer", "")[:ANSWER] if one.pk == asked else ""}
            for one in waiting],
        "done": [approval_sheet(one, names, now) for one in done]})


def _act(request, pk):
    answer = request.POST.get("answer", "")[:ANSWER]
    try:
        match request.POST.get("act"):
            case "approve":
                approve(by=request.user, approval_pk=pk, answer=answer)
                messages.success(request, "Approved and done. Those concerned are told.")
            case "refuse":
                refuse(by=request.user, approval_pk=pk, answer=answer)
                messages.success(request, "Refused. Nothing was changed.")
            case "take-back":
                take_back_approval(by=request.user, approval_pk=pk)
                messages.success(request, "Taken back. Nothing was changed.")
            case _:
                return "Choose what you decide."
    except (NotNow, NoReason) as refusal:
        return str(refusal)
    return ""
