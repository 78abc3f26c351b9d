"""One thing that was hidden at once: a moderator confirms it or shows it again."""
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone

from core.once import once
from teardowns.models import Decision as Decided
from teardowns.models import HiddenNow
from teardowns.presenting.moderation_rows import hidden_rows
from teardowns.services.hide_now import about_hidden, keep_hidden, show_again
from teardowns.services.reported_item import item_about

from .decision_steps import Decision

ACTS = {Decided.KEEP_HIDDEN: keep_hidden, Decided.SHOW_AGAIN: show_again}


@once
def hidden_case(request, pk):
    hidden = HiddenNow.objects.in_force().select_related("unit", "by", "confirmed_by").filter(
        pk=pk).first()
    if hidden is None:
        raise Http404("It is not hidden any more.")
    item = item_about(about_hidden(hidden))
    decision = _decision(request, hidden, item)
    if decision.done:
        return redirect("moderation")
    return render(request, "teardowns/hidden_case.html", {
        "hidden": hidden, "item": item, "decision": decision,
        "row": hidden_rows([hidden], timezone.now())[0]})


def _decision(request, hidden, item):
    choices = [(Decided.SHOW_AGAIN, "Show it again")]
    if hidden.confirmed_at is None:
        choices.insert(0, (Decided.KEEP_HIDDEN, "It has to stay hidden"))

    def drafted(what):
        return {"decision": what, "subject": about_hidden(hidden), "unit": hidden.unit,
                "addressee": item.author}

    def act(what, code, facts):
        ACTS[what](moderator=request.user, hidden_pk=hidden.pk, code=code, facts=facts)
    return Decision(request, choices, drafted, act)
