"""Approve or refuse what somebody else asked for; what is approved is done in the same moment."""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Approval, ApprovalAction, ApprovalState
from teardowns.workflow import NotNow

from .ask_approval import DECIDED
from .grant_role import give_role, may_decide_role
from .merge_units import may_decide_merge, merge_units
from .state_reasons import NoReason

MAY = {ApprovalAction.ROLE: may_decide_role, ApprovalAction.MERGE: may_decide_merge}
DO = {ApprovalAction.ROLE: give_role, ApprovalAction.MERGE: merge_units}


def may_decide_approval(person: User, approval: Approval) -> bool:
    """Never who asked for it."""
    return person.pk != approval.asked_by_id and MAY[ApprovalAction(approval.action)](
        person, approval)


@transaction.atomic
def approve(*, by: User, approval_pk: int, answer: str = "") -> Approval:
    """Raises Http404 or NotNow."""
    approval = _decided(by, approval_pk, ApprovalState.APPROVED, answer)
    DO[ApprovalAction(approval.action)](approval, by)
    return approval


@transaction.atomic
def refuse(*, by: User, approval_pk: int, answer: str) -> Approval:
    """Raises Http404, NotNow or NoReason."""
    if not answer.strip():
        raise NoReason("Write why not: who asked for it reads it.")
    approval = _decided(by, approval_pk, ApprovalState.REFUSED, answer)
    record(by, "approval_refused", subject=f"approval/{approval.pk}", what=approval.action)
    return approval


def _decided(by, approval_pk, state, answer):
    approval = Approval.objects.select_for_update().filter(pk=approval_pk).first()
    if approval is None or not may_decide_approval(by, approval):
        raise Http404("Nothing here for you to decide.")
    if approval.state != ApprovalState.WAITING:
        raise NotNow(DECIDED)
    approval.state, approval.answer = state, answer.strip()
    approval.decided_by, approval.decided_at = by, timezone.now()
    approval.save(update_fields=["state", "answer", "decided_by", "decided_at"])
    return approval
