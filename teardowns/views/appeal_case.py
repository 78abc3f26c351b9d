"""One appeal: the first statement beside it, decided by somebody who did not take that decision."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone

from core.once import once
from teardowns.models import Appeal, AppealState
from teardowns.models import Decision as Decided
from teardowns.presenting.moderation_rows import appeal_rows
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.appeal import decide_appeal, may_decide_appeal
from teardowns.services.moderation_desk import with_since_and_owner
from teardowns.services.take_charge import take_charge

from .decision_steps import Decision

CHOICES = [("upheld", "The decision stands"), ("reversed", "The decision is reversed")]
DECIDED = {"upheld": Decided.APPEAL_UPHELD, "reversed": Decided.APPEAL_REVERSED}


@once
def appeal_case(request, pk):
    found = with_since_and_owner(Appeal.objects.filter(pk=pk).select_related(
        "statement__unit", "statement__by", "statement__addressee", "author")).first()
    if found is None:
        raise Http404("No such appeal.")
    may_decide = may_decide_appeal(request.user, found)
    if request.POST.get("act") == "take" and may_decide:
        take_charge(moderator=request.user, subject=f"appeal/{pk}",
                    unit_pk=found.statement.unit_id)
        messages.success(request, "This case is yours now.")
        return redirect("appeal_case", pk)
    decision = _decision(request, found)
    if decision.done:
        return redirect("appeal_case", pk)
    answer = found.statement.answered_by.select_related("unit").first()
    return render(request, "teardowns/appeal_case.html", {
        "appeal": found, "row": appeal_rows([found], timezone.now())[0], "decision": decision,
        "first": statement_sheet(found.statement), "may_decide": may_decide,
        "is_open": found.state == AppealState.OPEN,
        "answer": statement_sheet(answer) if answer else None})


def _decision(request, appeal):
    first = appeal.statement

    def drafted(what):
        return {"decision": DECIDED[what], "subject": first.subject, "unit": first.unit,
                "addressee": appeal.author, "answers": first}

    def act(what, code, facts):
        decide_appeal(moderator=request.user, appeal_pk=appeal.pk, reverse=what == "reversed",
                      code=code, facts=facts)
    return Decision(request, CHOICES, drafted, act)
