"""A moderator resolves a report: upheld, or nothing breaks a rule; with a statement either way."""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Decision, Report, ReportState, Statement
from teardowns.workflow import NotNow

from .reported_item import item_about
from .state_reasons import NoReason, give_reasons, traces

RESOLVED = "This report is resolved already: its statement of reasons stands below."
SAY_WHY = "Write why you need to know who reported it: the log keeps it."


def report_to_decide(moderator: User, pk: int) -> Report:
    """The report, about content that this moderator has no part in and did not report. Http404."""
    report = Report.objects.select_related("unit").filter(pk=pk).first()
    if report is None or report.reporter_id == moderator.pk or _is_own(moderator, report):
        raise Http404("No report for you to decide.")
    return report


def _is_own(moderator, report):
    author = item_about(report.about).author
    if author is not None and author.pk == moderator.pk:
        return True
    return report.unit is not None and not access.may_decide(moderator, report.unit)


@transaction.atomic
def resolve_report(*, moderator: User, report_pk: int, upheld: bool, code: str,
                   facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    Report.objects.select_for_update().filter(pk=report_pk).first()
    report = report_to_decide(moderator, report_pk)
    if report.state != ReportState.OPEN:
        raise NotNow(RESOLVED)
    report.state = ReportState.UPHELD if upheld else ReportState.DISMISSED
    report.resolved_at = timezone.now()
    report.save(update_fields=["state", "resolved_at"])
    statement = give_reasons(
        decision=Decision.REPORT_UPHELD if upheld else Decision.REPORT_DISMISSED, code=code,
        facts=facts, subject=f"report/{report.pk}", unit=report.unit, addressee=report.reporter,
        by=moderator, report=report)
    record(moderator, "report_resolved", unit=report.unit, subject=f"report/{report.pk}",
           reason=statement.rule, upheld=upheld, **traces(statement))
    return statement


@transaction.atomic
def see_reporter(*, moderator: User, report_pk: int, reason: str) -> User | None:
    """Who reported it; None for somebody who did not sign in. Raises Http404 or NoReason."""
    report = report_to_decide(moderator, report_pk)
    if not reason.strip():
        raise NoReason(SAY_WHY)
    record(moderator, "reporter_seen", unit=report.unit, subject=f"report/{report.pk}",
           reason=reason.strip())
    return report.reporter
