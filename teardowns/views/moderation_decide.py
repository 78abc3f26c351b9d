"""Send a record back, decline it, put it in quarantine or release it: with a statement."""
from django.http import Http404
from django.shortcuts import redirect, render

from core.once import once
from teardowns import access
from teardowns.forms.remark_rows import RemarkRows
from teardowns.models import Decision as Decided
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.moderation_unit_sheet import CHOICES
from teardowns.services.decline_correction import decline_correction
from teardowns.services.moderated_unit import author_of_work, disputes_of
from teardowns.services.quarantine_unit import quarantine_unit, release_unit, why_not_release
from teardowns.services.send_back_unit import send_back_unit

from .decision_steps import MORE, Decision

WORDS = {key: (words, remark) for key, words, remark in CHOICES}
DECIDED = {"send_back": Decided.SEND_BACK, "decline": Decided.DECLINE,
           "quarantine": Decided.QUARANTINE, "release": Decided.RELEASE}
ACTS = {"decline": decline_correction, "quarantine": quarantine_unit, "release": release_unit}


@once
def moderation_decide(request, pk, what):
    if what not in WORDS:
        raise Http404("No such decision.")
    unit = access.unit_to_moderate(request.user, pk)
    remarks = _remarks(request, unit) if what == "send_back" else None
    decision = Decision(request, [(what, WORDS[what][0])], _drafted(unit, what),
                        _act(request, pk, what, remarks),
                        is_sound=remarks is None or remarks.is_sound)
    if decision.done:
        return redirect("moderation_unit", pk)
    return render(request, "teardowns/moderation_decide.html", {
        "unit": unit, "title": WORDS[what][0], "remark": WORDS[what][1], "decision": decision,
        "barred": _barred(request, unit, what),
        "remarks": remarks, "extra": remarks and "teardowns/_remark_rows.html",
    })


def _barred(request, unit, what):
    """Said before anything is typed; what was typed already is shown again, with the refusal."""
    asked = request.method == "GET" and what == "release"
    return why_not_release(request.user, unit) if asked else ""


def _remarks(request, unit):
    names = evidence_called(unit)
    if request.method != "POST":
        return RemarkRows(names, proposed=disputes_of(unit))
    return RemarkRows(names, request.POST, more=request.POST.get("step") == MORE)


def _drafted(unit, what):
    def drafted(_):
        of_work = what in ("send_back", "decline")
        return {"decision": DECIDED[what], "subject": f"unit/{unit.pk}", "unit": unit,
                "addressee": author_of_work(unit) if of_work else unit.contributor}
    return drafted


def _act(request, pk, what, remarks):
    def act(_, code, facts):
        if remarks is not None:
            return send_back_unit(moderator=request.user, unit_pk=pk, code=code, facts=facts,
                                  remarks=remarks.remarks)
        return ACTS[what](moderator=request.user, unit_pk=pk, code=code, facts=facts)
    return act
