"""Two records of one specimen: the younger becomes a tombstone that names the other.

No evidence moves, for who measured what stays with its record. Who watched the younger record
watches the other, replies stand beside the other, and its place in a board family is the other's
from then on. It takes two people.
"""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from teardowns import access
from teardowns.models import (
    Approval,
    ApprovalAction,
    BoardFamilyMember,
    Decision,
    ProposalState,
    Reply,
    Statement,
    Status,
    Unit,
    Watch,
)
from teardowns.workflow import NotNow

from .ask_approval import ask_approval
from .list_units import list_units
from .move_work import locked_unit, move
from .proposals import save_by
from .state_reasons import give_reasons, traces
from .withdraw_unit import mark_withdrawn

MERGEABLE = frozenset({Status.PUBLISHED, Status.SUBMITTED, Status.IN_REVIEW})
ITSELF = "A record cannot be merged into itself: write the number of the other one."
NO_OTHER = "There is no published record with that number."
NOT_THIS = "Only a record that is published, submitted or in review can be merged into another."
YOUNGER = ("The younger record is merged into the older one, which others have cited longer: open "
           "the younger one and merge it from there.")
JOINED = "Its record was merged into unit {}, which stands in this family or is proposed for it."
CORRECTED = "A correction of one of them is open: have it decided or dropped first."


@transaction.atomic
def ask_merge(*, moderator: User, unit_pk: int, into_pk: int, reason: str) -> Approval:
    """Raises Http404, NotNow or NoReason."""
    unit = access.unit_to_moderate(moderator, unit_pk)
    other = _other(unit, into_pk)
    if not access.may_decide(moderator, other):
        raise Http404("Nobody merges into a record of their own.")
    return ask_approval(
        by=moderator, action=ApprovalAction.MERGE, subject=f"unit/{unit.pk}",
        detail={"into": other.pk}, code="duplicate", reason=reason, unit_pk=unit.pk)


def _other(unit, into_pk):
    """The record that stays, if the two can be merged now. Raises NotNow."""
    if unit.pk == into_pk:
        raise NotNow(ITSELF)
    if unit.status not in MERGEABLE:
        raise NotNow(NOT_THIS)
    other = Unit.objects.published().filter(pk=into_pk).first()
    if other is None:
        raise NotNow(NO_OTHER)
    if _age(unit) < _age(other):
        raise NotNow(YOUNGER)
    if unit.work.correction or other.work.correction:
        raise NotNow(CORRECTED)
    return other


def _age(unit):
    """What came first: a public record before one that is not, then the date, then the number."""
    first = unit.published_at
    return (first is None, first.timestamp() if first else 0.0, unit.pk)


def may_decide_merge(moderator: User, approval: Approval) -> bool:
    units = Unit.objects.filter(pk__in=(_younger_pk(approval), approval.detail["into"]))
    return access.may_moderate(moderator) and all(
        access.may_decide(moderator, unit) for unit in units)


def merge_units(approval: Approval, moderator: User) -> Statement:
    """Carry out an approved merge, in the caller's transaction. Raises NotNow."""
    pks = sorted((_younger_pk(approval), approval.detail["into"]))
    locked = {pk: locked_unit(pk) for pk in pks}               # in one order, so nobody waits round
    unit = locked[_younger_pk(approval)]
    other = _other(unit, approval.detail["into"])
    statement = give_reasons(
        decision=Decision.MERGE, code=approval.code, facts=approval.reason,
        subject=f"unit/{unit.pk}", unit=unit, addressee=unit.contributor, by=moderator)
    unit.successor = other
    unit.save(update_fields=["successor"])
    _move_followers(unit, other)
    _move_memberships(unit, other, moderator)
    list_units([other.pk])
    event = "withdraw" if unit.status == Status.PUBLISHED else "decline"
    if event == "withdraw":
        mark_withdrawn(unit, approval.code, statement.rule)
    move(unit, event, moderator, statement.rule, into=other.pk, approval=approval.pk,
         **traces(statement))
    return statement


def _move_followers(unit, other):
    Reply.objects.filter(unit=unit).update(unit=other)
    already = Watch.objects.filter(unit=other).values("person")
    Watch.objects.filter(unit=unit).exclude(person__in=already).update(unit=other)


def _move_memberships(unit, other, moderator):
    """The specimen keeps its families; where the other record has its place already, one ends."""
    live = BoardFamilyMember.objects.live()
    taken = dict(live.filter(unit=other).values_list("family", "state"))
    for member in live.select_for_update().filter(unit=unit).order_by("pk"):
        if member.family_id in taken:
            _end(member, other, moderator)
        else:
            member.unit = other
        member.version += 1
        save_by(member, moderator)


def _end(member, other, moderator):
    if member.state == ProposalState.ACCEPTED:
        member.state, member.removal_reason = ProposalState.REMOVED, JOINED.format(other.pk)
        member.removed_by, member.removed_at = moderator, timezone.now()
    elif member.proposer_id == moderator.pk:               # nobody decides about their own
        member.state = ProposalState.TAKEN_BACK
    else:
        member.state, member.reason = ProposalState.DECLINED, JOINED.format(other.pk)
        member.decided_by, member.decided_at = moderator, timezone.now()


def _younger_pk(approval):
    return int(approval.subject.removeprefix("unit/"))
