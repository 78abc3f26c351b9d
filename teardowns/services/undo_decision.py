"""Undo what a reversed decision did, where that can be done by itself."""
from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Decision, HiddenNow, Report, ReportState, Statement, Status
from teardowns.reasons import BY_CODE

from .hide_now import end_hiding
from .move_work import locked_unit, move
from .quarantine_unit import quarantined_by, set_out_of_sight
from .reassess_publications import reassess_publications
from .suspend_account import let_write_again
from .withdraw_unit import unmark_withdrawn

REVERSED = "A decision was reversed on appeal."


def undo_decision(statement: Statement, moderator: User) -> bool:
    """Whether it could be undone; False leaves it to the moderator. In the caller's transaction."""
    undo = _UNDO.get(statement.decision)
    return undo is not None and undo(statement, moderator)


def _release(statement, moderator):
    unit = locked_unit(statement.unit_id)
    if quarantined_by(unit) is None:
        return False
    set_out_of_sight(unit, moderator, hide=False)
    record(moderator, "unit_released", unit=unit, reason=REVERSED)
    return True


def _show(statement, moderator):
    kind, _, pk = statement.subject.partition("/")
    unit = locked_unit(statement.unit_id) if statement.unit_id else None
    hidden = HiddenNow.objects.in_force().of(kind, int(pk)).first()
    if hidden is None:
        return False
    end_hiding(hidden, unit, moderator)
    record(moderator, "shown_again", unit=unit, subject=statement.subject, reason=REVERSED)
    return True


def _lift(statement, moderator):
    person = User.objects.select_for_update().get(pk=statement.addressee_id)
    if not person.is_suspended:
        return False
    let_write_again(person)
    record(moderator, "suspension_lifted", subject=statement.subject, reason=REVERSED)
    return True


def _reinstate(statement, moderator):
    unit = locked_unit(statement.unit_id)
    if unit.status != Status.WITHDRAWN:
        return False
    unit.successor = None
    unit.save(update_fields=["successor"])
    unmark_withdrawn(unit)
    reassess_publications([unit.publication_id])        # rules may have changed meanwhile
    move(unit, "reinstate", moderator, REVERSED)
    return True


def _reconsider(statement, moderator):
    unit = locked_unit(statement.unit_id)
    if unit.work.status != Status.DECLINED:
        return False                            # a correction: its author proposes it once more
    move(unit, "reconsider", moderator, REVERSED)
    return True


def _open_again(statement, moderator):
    report = Report.objects.select_for_update().get(pk=statement.report_id)
    if report.state == ReportState.OPEN:
        return False
    report.state, report.resolved_at = ReportState.OPEN, None
    report.due_at = timezone.now() + timedelta(hours=BY_CODE[report.code].hours)
    report.save(update_fields=["state", "resolved_at", "due_at"])
    record(moderator, "report_reopened", unit=report.unit, subject=f"report/{report.pk}",
           reason=REVERSED)
    return True


_UNDO: dict[str, Callable[[Statement, User], bool]] = {
    Decision.QUARANTINE: _release, Decision.HIDE: _show, Decision.KEEP_HIDDEN: _show,
    Decision.SUSPEND: _lift, Decision.WITHDRAW: _reinstate, Decision.MERGE: _reinstate,
    Decision.DECLINE: _reconsider, Decision.REPORT_DISMISSED: _open_again,
}
