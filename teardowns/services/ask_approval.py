"""Ask for an action that takes two people; or take the request back."""
from __future__ import annotations

from typing import Any

from django.db import IntegrityError, transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Approval, ApprovalState
from teardowns.reasons import BY_CODE
from teardowns.workflow import NotNow

from .state_reasons import NoReason

WAITS = "Somebody has asked for this already: it waits for a second person."
DECIDED = "This is decided already."


@transaction.atomic
def ask_approval(*, by: User, action: str, subject: str, detail: dict[str, Any], code: str,
                 reason: str, unit_pk: int | None = None) -> Approval:
    """Whether the person may ask for it is the caller's question. Raises NotNow or NoReason."""
    if code not in BY_CODE:
        raise NoReason("Choose a reason of the list.")
    if not reason.strip():
        raise NoReason("Write why: the second person decides by it.")
    try:
        with transaction.atomic():
            approval = Approval.objects.create(action=action, subject=subject, detail=detail,
                                               asked_by=by, code=code, reason=reason.strip())
    except IntegrityError:
        raise NotNow(WAITS) from None
    record(by, "approval_asked", unit=unit_pk, subject=f"approval/{approval.pk}", what=action)
    return approval


@transaction.atomic
def take_back_approval(*, by: User, approval_pk: int) -> Approval:
    """Raises Http404 or NotNow."""
    approval = Approval.objects.select_for_update().filter(pk=approval_pk, asked_by=by).first()
    if approval is None:
        raise Http404("You did not ask for this.")
    if approval.state != ApprovalState.WAITING:
        raise NotNow(DECIDED)
    approval.state, approval.decided_at = ApprovalState.TAKEN_BACK, timezone.now()
    approval.save(update_fields=["state", "decided_at"])
    record(by, "approval_taken_back", subject=f"approval/{approval.pk}", what=approval.action)
    return approval
