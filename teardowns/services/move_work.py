"""Move what is being worked on from one state to the next, and log it: once, or not at all."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Correction, Review, ReviewEnding, Unit, Work
from teardowns.workflow import CORRECTION_ENDS, WAITING, after

from .list_units import list_units


def locked_unit(unit_pk: int) -> Unit:
    """The unit, locked until the transaction ends (on SQLite by its one writer); Http404."""
    unit = Unit.objects.select_for_update().filter(pk=unit_pk).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit


@dataclass(frozen=True)
class Moved:
    """What happened to which work, before it is logged."""

    unit: Unit
    event: str
    before: str
    after: str
    correction: Correction | None


def move(unit: Unit, event: str, actor: User | None, reason: str = "", **detail) -> Work:
    """Cause an event on a locked unit's work; the work as it is afterwards. Raises NotNow.

    The open correction moves where there is one, except by what ends or restores a public unit.
    Who may cause the event is the caller's question, asked before.
    """
    log_move(shift(unit, event, actor, reason), actor, reason, **detail)
    return unit.work


def log_move(moved: Moved, actor: User | None, reason: str = "", **detail) -> None:
    """The entry of a shift. It belongs at the end of the transaction: the log is locked then."""
    correction: dict[str, Any] = (
        {"correction": moved.correction.pk} if moved.correction else {})
    record(actor, f"work_{moved.event}", unit=moved.unit, reason=reason, before=moved.before,
           after=moved.after, **correction, **detail)


def shift(unit: Unit, event: str, actor: User | None, reason: str = "") -> Moved:
    """The same without its entry in the log, for who has much to do before that is written."""
    if not transaction.get_connection().in_atomic_block:
        raise RuntimeError("a move belongs into the transaction that locked the unit")
    work = unit.work
    correction = None if event in ("withdraw", "reinstate") else work.correction
    before = correction.status if correction else unit.status
    state = after(before, event)
    if correction:
        _move_correction(correction, state, event, reason)
    else:
        _move_unit(unit, state, event, actor, reason)
    if state not in WAITING:            # whoever still reviews it has nothing to decide any more
        Review.objects.filter(unit=unit, closed_at=None).update(
            closed_at=timezone.now(), ending=ReviewEnding.MOVED_ON, sides={})
    return Moved(unit, event, before, state, correction)


def _move_correction(correction: Correction, state: str, event: str, reason: str) -> None:
    now = timezone.now()
    correction.status = state
    if event == "submit":
        correction.submitted_at = now
    if state in CORRECTION_ENDS:
        correction.closed_at, correction.outcome = now, reason
    correction.save()


def _move_unit(unit: Any, state: str, event: str, actor: User | None, reason: str) -> None:
    unit.status = state
    if event == "submit":
        unit.submitted_at = timezone.now()
    unit._history_user, unit._change_reason = actor, (reason or event)[:100]
    unit.save(update_fields=["status", "submitted_at", "changed_at"])
    list_units([unit.pk])
