"""Make a withdrawn unit public again: decided by a moderator who did not withdraw it."""
from __future__ import annotations

from django.db import transaction
from django.urls import reverse

from core.accounts.models import User
from teardowns import access
from teardowns.models import Decision, NoticeKind, Statement, Unit
from teardowns.workflow import NotNow, after

from .move_work import locked_unit, move
from .notify import notify
from .reassess_publications import reassess_publications
from .state_reasons import give_reasons, traces
from .withdraw_unit import unmark_withdrawn

BY_ANOTHER = ("You withdrew this record, so another moderator decides whether it becomes public "
              "again.")
MERGED = ("This record was merged into another one of the same specimen. It becomes public again "
          "when the merge is reversed on appeal.")


@transaction.atomic
def reinstate_unit(*, moderator: User, unit_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    locked_unit(unit_pk)
    unit = access.unit_to_moderate(moderator, unit_pk)
    after(unit.status, "reinstate")
    if unit.successor_id:
        raise NotNow(MERGED)
    last = last_withdrawal(unit)
    if last is not None and last.by_id == moderator.pk:
        raise NotNow(BY_ANOTHER)
    statement = give_reasons(decision=Decision.REINSTATE, code=code, facts=facts,
                             subject=f"unit/{unit.pk}", unit=unit, addressee=unit.contributor,
                             by=moderator)
    unmark_withdrawn(unit)
    reassess_publications([unit.publication_id])        # rules may have changed meanwhile
    notify([unit.contributor_id], NoticeKind.REINSTATED, actor=moderator, unit=unit,
           subject=f"unit/{unit.pk}", words=statement.facts, event=f"statement/{statement.uid}",
           address=reverse("unit_detail", args=[unit.pk]))
    move(unit, "reinstate", moderator, statement.rule, **traces(statement))
    return statement


def last_withdrawal(unit: Unit) -> Statement | None:
    """The decision by which the unit is withdrawn; None where no statement tells of one."""
    return unit.statements.filter(subject=f"unit/{unit.pk}", decision__in=(
        Decision.WITHDRAW, Decision.MERGE)).select_related("by").first()
