"""Take a published unit out of public view for good: a tombstone with the reason stays.

Its contributor may retract it, and a moderator who has no part in it may withdraw it. All versions
are kept and answer with the tombstone.
"""
from __future__ import annotations

from typing import Any

from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import User
from teardowns import access
from teardowns.models import Decision, NoticeKind, Statement, Status, Unit
from teardowns.workflow import OPEN, NotNow

from .lay_aside import lay_aside
from .listing_clock import hold_clock
from .move_work import locked_unit, move
from .notify import notify
from .state_reasons import give_reasons, traces

NOT_PUBLISHED = "This record is not published, so there is nothing to withdraw."
ENDED = "The record was withdrawn."


@transaction.atomic
def withdraw_unit(*, by: User, unit_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    locked_unit(unit_pk)
    unit = access.unit_to_withdraw(by, unit_pk)
    if unit.status != Status.PUBLISHED:
        raise NotNow(NOT_PUBLISHED)
    statement = give_reasons(decision=Decision.WITHDRAW, code=code, facts=facts,
                             subject=f"unit/{unit.pk}", unit=unit, addressee=unit.contributor,
                             by=by)
    hold_clock()                        # before the log's end, which the correction's end takes
    _end_correction(unit, by)
    mark_withdrawn(unit, code, statement.facts)
    notify([unit.contributor_id], NoticeKind.WITHDRAWN, actor=by, unit=unit,
           subject=f"unit/{unit.pk}", words=statement.facts, event=f"statement/{statement.uid}",
           address=reverse("unit_detail", args=[unit.pk]))
    move(unit, "withdraw", by, statement.rule, by_contributor=by.pk == unit.contributor_id,
         **traces(statement))
    return statement


def mark_withdrawn(unit: Any, code: str, reason: str) -> None:
    """What the version that stood says of its withdrawal."""
    unit.publications.filter(pk=unit.publication_id).update(
        withdrawn_at=timezone.now(), withdrawal_code=code, withdrawal_reason=reason)


def unmark_withdrawn(unit: Any) -> None:
    unit.publications.filter(pk=unit.publication_id).update(
        withdrawn_at=None, withdrawal_code="", withdrawal_reason="")


def _end_correction(unit: Unit, by: User) -> None:
    """Nobody writes on a withdrawn unit; what was proposed stays readable to its author."""
    correction = lay_aside(unit, by)
    if correction is None:
        return
    notify([correction.author_id], NoticeKind.DECLINED, actor=by, unit=unit,
           subject=f"correction/{correction.pk}", words=ENDED,
           event=f"correction/{correction.pk}/ended",
           address=reverse("unit_correction", args=[unit.pk, correction.pk]))
    move(unit, "discard" if correction.status in OPEN else "decline", by, ENDED)
