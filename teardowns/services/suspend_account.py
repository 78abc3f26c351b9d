"""Stop an account from writing, and let it write again; each with a statement of reasons.

Contributors and reviewers only: nobody suspends a peer. Sessions end at once.
"""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import Role, User
from core.accounts.sessions import end_sessions
from core.audit.record import record
from teardowns.models import Decision, Statement
from teardowns.workflow import NotNow

from .state_reasons import give_reasons, traces

BELOW = frozenset({Role.CONTRIBUTOR, Role.REVIEWER})
IS_SUSPENDED = "This account is suspended already."
NOT_SUSPENDED = "This account is not suspended."


def may_suspend(moderator: User, person: User) -> bool:
    return (moderator.has_role(Role.MODERATOR) and person.role in BELOW
            and person.pk != moderator.pk and person.deleted_at is None)


@transaction.atomic
def suspend_account(*, moderator: User, person_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    person = _locked(moderator, person_pk)
    if person.is_suspended:
        raise NotNow(IS_SUSPENDED)
    person.suspended_at, person.suspended_reason = timezone.now(), facts.strip()
    statement = _decide(moderator, person, Decision.SUSPEND, "account_suspended", code, facts)
    return statement


@transaction.atomic
def lift_suspension(*, moderator: User, person_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    person = _locked(moderator, person_pk)
    if not person.is_suspended:
        raise NotNow(NOT_SUSPENDED)
    let_write_again(person)
    return _decide(moderator, person, Decision.LIFT, "suspension_lifted", code, facts)


def let_write_again(person: User) -> None:
    """In the transaction that locked the account."""
    person.suspended_at, person.suspended_reason = None, ""
    person.save(update_fields=["suspended_at", "suspended_reason"])


def _locked(moderator, person_pk):
    person = User.objects.select_for_update().filter(pk=person_pk).first()
    if person is None or not may_suspend(moderator, person):
        raise Http404("No account that you may suspend.")
    return person


def _decide(moderator, person, decision, action, code, facts):
    statement = give_reasons(decision=decision, code=code, facts=facts,
                             subject=f"user/{person.pk}", addressee=person, by=moderator)
    person.save(update_fields=["suspended_at", "suspended_reason"])
    if person.is_suspended:
        end_sessions(person)
    record(moderator, action, subject=f"user/{person.pk}", reason=statement.rule,
           **traces(statement))
    return statement
