"""One report: what it is about and says; taken on, handed over, resolved with a statement."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone

from core.once import once
from teardowns.models import Decision as Decided
from teardowns.models import HiddenKind, Report, ReportState
from teardowns.presenting.moderation_rows import report_rows
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.moderation_desk import with_since_and_owner
from teardowns.services.reported_item import item_about
from teardowns.services.resolve_report import report_to_decide, resolve_report, see_reporter
from teardowns.services.state_reasons import NoReason
from teardowns.services.take_charge import take_charge

from .decision_steps import Decision

CHOICES = [("upheld", "The report is right: it breaks a rule"),
           ("dismissed", "Nothing breaks a rule")]
DECIDED = {"upheld": Decided.REPORT_UPHELD, "dismissed": Decided.REPORT_DISMISSED}


@once
def report_case(request, pk):
    report = report_to_decide(request.user, pk)
    act = request.POST.get("act") if request.method == "POST" else None
    if act == "take":
        take_charge(moderator=request.user, subject=f"report/{pk}", unit_pk=report.unit_id)
        messages.success(request, "This case is yours now.")
        return redirect("report_case", pk)
    reporter, who_error = _reporter(request, pk) if act == "who" else ("", "")
    decision = _decision(request, report)
    if decision.done:
        return redirect("report_case", pk)
    row = with_since_and_owner(Report.objects.filter(pk=pk).select_related("unit"))
    return render(request, "teardowns/report_case.html", {
        "report": report, "item": item_about(report.about), "decision": decision,
        "row": report_rows(row, timezone.now())[0], "reporter": reporter, "who_error": who_error,
        "is_open": report.state == ReportState.OPEN,
        "can_hide": report.about.partition("/")[0] in HiddenKind.values,
        "statements": [statement_sheet(one) for one in report.statements.select_related("unit")],
        "others": Report.objects.filter(about=report.about).exclude(pk=pk).count(),
    })


def _decision(request, report):
    def drafted(what):
        return {"decision": DECIDED[what], "subject": f"report/{report.pk}", "unit": report.unit,
                "addressee": report.reporter, "report": report}

    def act(what, code, facts):
        resolve_report(moderator=request.user, report_pk=report.pk, upheld=what == "upheld",
                       code=code, facts=facts)
    return Decision(request, CHOICES, drafted, act)


def _reporter(request, pk):
    try:
        person = see_reporter(moderator=request.user, report_pk=pk,
                              reason=request.POST.get("why", "")[:1000])
    except NoReason as refusal:
        return "", str(refusal)
    return person.get_username() if person else "somebody who did not sign in", ""
