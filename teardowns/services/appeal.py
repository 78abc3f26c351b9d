"""Appeal against a decision, and decide the appeal: never by who took the decision.

Whoever decides does so within 14 days; the clock is shown. The first statement stays unchanged, the
answer is a statement of its own, and what can be undone by itself is undone with it.
"""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import Role, User
from core.audit.record import record
from teardowns import access
from teardowns.models import (
    Appeal,
    AppealState,
    Approval,
    ApprovalState,
    Decision,
    Statement,
)
from teardowns.models.statements import APPEAL_WITHIN
from teardowns.workflow import NotNow

from .state_reasons import APPEAL_OPEN, RESTRICTS, NoReason, give_reasons, traces
from .undo_decision import undo_decision

LONGEST = 6000
ASKED_FOR = (Decision.MERGE, Decision.ROLE)      # actions of approvals, by the same word
ONCE = "An appeal against this decision is in already."
FINAL = "This decision cannot be appealed against."
TOO_LATE = "Appeals are open for six months after a decision; this one is older."
DECIDED = "This appeal is decided already."


def statement_of(person: User, uid) -> Statement:
    """The statement, for its addressee or a moderator; Http404."""
    statement = Statement.objects.select_related("unit", "by", "addressee").filter(uid=uid).first()
    if statement is None:
        raise Http404("No such statement.")
    if statement.addressee_id != person.pk and not person.has_role(Role.MODERATOR):
        raise Http404("No such statement.")
    return statement


def why_no_appeal(person: User, statement: Statement) -> str:
    """Why this person cannot appeal now; "" when they can."""
    if statement.addressee_id != person.pk or statement.decision not in RESTRICTS:
        return FINAL
    if Appeal.objects.filter(statement=statement).exists():
        return ONCE
    return TOO_LATE if timezone.now() > statement.at + APPEAL_OPEN else ""


@transaction.atomic
def open_appeal(*, author: User, uid, text: str) -> Appeal:
    """Suspended people may, too. Raises Http404, NotNow or NoReason."""
    statement = statement_of(author, uid)
    Statement.objects.select_for_update().get(pk=statement.pk)
    why = why_no_appeal(author, statement)
    if why:
        raise NotNow(why)
    if not text.strip():
        raise NoReason("Write why the decision should be looked at again.")
    appeal = Appeal.objects.create(statement=statement, author=author, text=text.strip()[:LONGEST],
                                   due_at=timezone.now() + APPEAL_WITHIN)
    record(author, "appeal_opened", unit=statement.unit, subject=f"appeal/{appeal.pk}",
           statement=str(statement.uid))
    return appeal


def may_decide_appeal(moderator: User, appeal: Appeal) -> bool:
    """A moderator who had no part in the decision, nor has one in what it is about."""
    statement = appeal.statement
    if not moderator.has_role(Role.MODERATOR) or moderator.pk in (statement.by_id,
                                                                  appeal.author_id):
        return False
    if statement.decision in ASKED_FOR and Approval.objects.filter(
            action=statement.decision, subject=statement.subject, asked_by=moderator,
            state=ApprovalState.APPROVED).exists():
        return False
    return statement.unit is None or access.may_decide(moderator, statement.unit)


@transaction.atomic
def decide_appeal(*, moderator: User, appeal_pk: int, reverse: bool, facts: str,
                  code: str = "looked_at_again") -> Statement:
    """Raises Http404, NotNow or NoReason."""
    appeal = Appeal.objects.select_for_update().filter(pk=appeal_pk).first()
    if appeal is None or not may_decide_appeal(moderator, appeal):
        raise Http404("No appeal for you to decide.")
    if appeal.state != AppealState.OPEN:
        raise NotNow(DECIDED)
    first = appeal.statement
    undone = undo_decision(first, moderator) if reverse else False
    statement = give_reasons(
        decision=Decision.APPEAL_REVERSED if reverse else Decision.APPEAL_UPHELD,
        code=code, facts=facts, subject=first.subject,
        unit=first.unit, addressee=appeal.author, by=moderator, report=first.report, answers=first)
    appeal.state = AppealState.REVERSED if reverse else AppealState.UPHELD
    appeal.decided_by, appeal.decided_at = moderator, timezone.now()
    appeal.save(update_fields=["state", "decided_by", "decided_at"])
    record(moderator, "appeal_decided", unit=first.unit, subject=f"appeal/{appeal.pk}",
           reason=statement.rule, reverse=reverse, undone=undone, **traces(statement))
    return statement


