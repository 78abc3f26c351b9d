"""Give work back to its author, with what is to be changed said item by item."""
from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction
from django.http import Http404

from core.accounts.models import User
from teardowns import access
from teardowns.models import Decision, ReviewRemark, Statement

from .move_work import locked_unit, move
from .state_reasons import give_reasons, traces

Remark = tuple[str, str]            # ref of the item ("" for all of it), and what to change


@transaction.atomic
def send_back_unit(*, moderator: User, unit_pk: int, code: str, facts: str,
                   remarks: Iterable[Remark] = ()) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    unit = locked_unit(unit_pk)
    if not access.may_decide(moderator, unit):
        raise Http404("No such unit to moderate.")
    work = unit.work
    statement = give_reasons(
        decision=Decision.SEND_BACK, code=code, facts=facts, subject=f"unit/{unit.pk}", unit=unit,
        addressee=User.objects.get(pk=work.author_id), by=moderator)
    kept = ReviewRemark.objects.bulk_create(
        ReviewRemark(unit=unit, correction=work.correction, ref=ref, text=text.strip(),
                     author=moderator)
        for ref, text in remarks if text.strip())
    move(unit, "send_back", moderator, statement.facts, remarks=len(kept), **traces(statement))
    return statement
