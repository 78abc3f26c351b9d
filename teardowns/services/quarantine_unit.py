"""Take a record out of public view and out of writing until it is clear; and put it back.

Nothing is lost. It is put back by a moderator who did not take it out.
"""
from __future__ import annotations

from typing import Any

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Decision, HiddenNow, Statement, Unit
from teardowns.workflow import NotNow

from .list_units import list_units
from .move_work import locked_unit
from .state_reasons import give_reasons, traces

IN_ALREADY = "This record is in quarantine already."
NOT_IN = "This record is not in quarantine."
BY_ANOTHER = ("You put this record into quarantine, so somebody else decides when it is clear: "
              "hand it over to another moderator.")


@transaction.atomic
def quarantine_unit(*, moderator: User, unit_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    unit = locked_unit(unit_pk)
    access.unit_to_moderate(moderator, unit_pk)
    if quarantined_by(unit) is not None:
        raise NotNow(IN_ALREADY)
    _end_hiding(unit, moderator)
    return _decide(unit, moderator, Decision.QUARANTINE, code, facts)


@transaction.atomic
def release_unit(*, moderator: User, unit_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    unit = locked_unit(unit_pk)
    access.unit_to_moderate(moderator, unit_pk)
    if refusal := why_not_release(moderator, unit):
        raise NotNow(refusal)
    return _decide(unit, moderator, Decision.RELEASE, code, facts)


def why_not_release(moderator: User, unit: Unit) -> str:
    """What keeps this moderator from releasing the record; empty where nothing does."""
    first = quarantined_by(unit)
    if first is None:
        return NOT_IN
    return BY_ANOTHER if first.by_id == moderator.pk else ""


def quarantined_by(unit: Unit) -> Statement | None:
    """The decision by which the record is in quarantine; None when it is not."""
    if unit.quarantined_at is None or HiddenNow.objects.in_force().of("unit", unit.pk).exists():
        return None
    reversal = Q(decision=Decision.APPEAL_REVERSED, answers__decision=Decision.QUARANTINE)
    last = Statement.objects.filter(
        Q(decision__in=(Decision.QUARANTINE, Decision.RELEASE)) | reversal,
        unit=unit, subject=f"unit/{unit.pk}").first()
    return last if last and last.decision == Decision.QUARANTINE else None


def _end_hiding(unit, moderator):
    """The quarantine takes the place of a hiding that would lapse."""
    HiddenNow.objects.filter(kind="unit", object_id=unit.pk, ended_at=None).update(
        ended_at=timezone.now(), ended_by=moderator)


def _decide(unit, moderator, decision, code, facts):
    statement = give_reasons(decision=decision, code=code, facts=facts, subject=f"unit/{unit.pk}",
                             unit=unit, addressee=unit.contributor, by=moderator)
    hide = decision == Decision.QUARANTINE
    set_out_of_sight(unit, moderator, hide)
    record(moderator, "unit_quarantined" if hide else "unit_released", unit=unit,
           reason=statement.rule, **traces(statement))
    return statement


def set_out_of_sight(unit: Any, actor: User | None, hide: bool) -> None:
    """Everything that asks what is public or writable looks at this one column."""
    unit.quarantined_at = timezone.now() if hide else None
    unit._history_user = actor
    unit._change_reason = "out of sight" if hide else "in sight again"
    unit.save(update_fields=["quarantined_at", "changed_at"])
    list_units([unit.pk])
