"""Give or take a role: one person proposes, an administrator who is another decides.

A moderator may propose contributor or reviewer; every other role is between administrators. Nobody
decides about their own role, nor proposes one for themselves.
"""
from __future__ import annotations

from django.http import Http404

from core.accounts.models import Role, User
from core.audit.record import record
from teardowns.models import Approval, ApprovalAction, Decision, Statement
from teardowns.workflow import NotNow

from .ask_approval import ask_approval
from .state_reasons import give_reasons, traces

OF_REVIEW = frozenset({Role.CONTRIBUTOR, Role.REVIEWER})
HAS_IT = "This person has that role already."
CHANGED = "The person’s role has changed since this was asked: ask anew."
LAST = "This is the last administrator; make another one first."


def roles_to_propose(by: User, person: User) -> list[str]:
    """Roles that one person may propose for another, as things stand."""
    if by.pk == person.pk or person.deleted_at is not None or not person.is_active:
        return []
    if by.has_role(Role.ADMINISTRATOR):
        return [role for role in Role.values if role != person.role]
    if by.has_role(Role.MODERATOR) and person.role in OF_REVIEW:
        return [role for role in Role.values if role in OF_REVIEW and role != person.role]
    return []


def propose_role(*, by: User, person_pk: int, role: str, reason: str) -> Approval:
    """Raises Http404, NotNow or NoReason."""
    person = User.objects.filter(pk=person_pk).first()
    if person is None:
        raise Http404("No such account.")
    if role == person.role:
        raise NotNow(HAS_IT)
    if role not in roles_to_propose(by, person):
        raise Http404("Not a role that you may propose.")
    return ask_approval(by=by, action=ApprovalAction.ROLE, subject=f"user/{person.pk}",
                        detail={"role": role, "before": person.role}, code="trust", reason=reason)


def may_decide_role(administrator: User, approval: Approval) -> bool:
    return (administrator.has_role(Role.ADMINISTRATOR)
            and administrator.pk not in (approval.asked_by_id, _person_pk(approval)))


def give_role(approval: Approval, administrator: User) -> Statement:
    """Carry out an approved change, in the caller's transaction. Raises NotNow."""
    person = User.objects.select_for_update().get(pk=_person_pk(approval))
    if person.role != approval.detail["before"]:
        raise NotNow(CHANGED)
    if person.role == Role.ADMINISTRATOR and _administrators() < 2:
        raise NotNow(LAST)
    person.role = approval.detail["role"]
    person.save(update_fields=["role"])
    statement = give_reasons(decision=Decision.ROLE, code=approval.code, facts=approval.reason,
                             subject=approval.subject, addressee=person, by=administrator)
    record(administrator, "role_changed", subject=approval.subject, reason=statement.rule,
           **approval.detail, approval=approval.pk, **traces(statement))
    return statement


def _administrators():
    return User.objects.filter(role=Role.ADMINISTRATOR, is_active=True,
                               suspended_at=None).count()


def _person_pk(approval):
    return int(approval.subject.removeprefix("user/"))
