"""Decisions about a person's own content and account, each with its statement of reasons."""
from django.shortcuts import render

from teardowns.models import Statement
from teardowns.presenting.moderation_times import moment
from teardowns.presenting.statement_sheet import subject_called

SHOWN = 100


def statements(request):
    own = Statement.objects.filter(addressee=request.user).select_related(
        "unit", "appeal", "addressee")
    return render(request, "teardowns/statements.html", {"rows": [
        {"uid": one.uid, "decision": one.get_decision_display(), "at": moment(one.at),
         "about": one.unit.title if one.unit else subject_called(one),
         "appeal": one.appeal.get_state_display() if hasattr(one, "appeal") else ""}
        for one in own[:SHOWN]]})
