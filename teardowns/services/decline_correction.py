"""Decline what was proposed: a correction, or a record that was never public."""
from __future__ import annotations

from django.db import transaction
from django.http import Http404

from core.accounts.models import User
from teardowns import access
from teardowns.models import Decision, Statement

from .lay_aside import lay_aside
from .move_work import locked_unit, move
from .state_reasons import give_reasons, traces


@transaction.atomic
def decline_correction(*, moderator: User, unit_pk: int, code: str, facts: str) -> Statement:
    """What stood before stays; the proposal stays readable to its author. Raises Http404, NotNow
    or NoReason."""
    unit = locked_unit(unit_pk)
    if not access.may_decide(moderator, unit):
        raise Http404("No such unit to moderate.")
    statement = give_reasons(
        decision=Decision.DECLINE, code=code, facts=facts, subject=f"unit/{unit.pk}", unit=unit,
        addressee=User.objects.get(pk=unit.work.author_id), by=moderator)
    lay_aside(unit, moderator)
    move(unit, "decline", moderator, statement.facts, **traces(statement))
    return statement
