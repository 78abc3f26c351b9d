"""Decide about two units whose boards look alike: two boards, or a family opened because of them.

That they are one board is decided unit by unit, as every membership is (edit_family).
"""
from __future__ import annotations

from django.db import transaction
from django.db.models import Exists, F, OuterRef, QuerySet
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import (
    BoardFamilyMember,
    CandidateState,
    Likeness,
    Lookalike,
)
from teardowns.workflow import NotNow

from .index_likeness import locked_with_mates
from .proposals import REASON_NEEDED, Refused

DECIDED = "It was decided meanwhile that these are two boards."


def candidates() -> QuerySet[Lookalike]:
    """Pairs that nobody decided about and that no family holds together yet, the likest first;
    without units that changed and were not looked at since."""
    mates = BoardFamilyMember.objects.current().filter(
        unit=OuterRef("second"), family__memberships__unit=OuterRef("first"),
        family__memberships__state=F("state"))
    moved = [Exists(Likeness.objects.filter(is_new=True, unit=OuterRef(side)))
             for side in ("first", "second")]
    return Lookalike.objects.filter(state=CandidateState.OPEN).exclude(
        Exists(mates) | moved[0] | moved[1]).order_by("-score", "pk")


@transaction.atomic
def tell_apart(*, moderator: User, lookalike_pk: int, reason: str) -> Lookalike:
    """These are two boards: they are not proposed again. Raises Refused, NotNow or Http404."""
    # What is said of units before the pair, as find_likenesses does: so nobody waits round.
    ends = Lookalike.objects.filter(pk=lookalike_pk).values_list("first", "second").first()
    said = locked_with_mates(ends or ())
    pair = Lookalike.objects.select_for_update(of=("self",)).filter(
        pk=lookalike_pk).select_related("first", "second").first()
    if pair is None or not all(access.may_decide(moderator, unit)
                               for unit in (pair.first, pair.second)):
        raise Http404("No such pair to decide about.")
    if pair.state != CandidateState.OPEN:
        raise NotNow(DECIDED)
    if not reason.strip():
        raise Refused({"reason": REASON_NEEDED})
    pair.state, pair.reason = CandidateState.APART, reason.strip()
    pair.decided_by, pair.decided_at = moderator, timezone.now()
    pair.save()
    _say_no_more(pair, said)
    record(moderator, "lookalike_apart", unit=pair.first_id, subject=f"unit/{pair.second_id}",
           reason=pair.reason, score=round(pair.score, 3))
    return pair


def _say_no_more(pair, said):
    """Neither unit's page names the other any more."""
    both = {pair.first_id: pair.second_id, pair.second_id: pair.first_id}
    told = [said[pk] for pk in both if pk in said]
    for likeness in told:
        likeness.alike = [row for row in likeness.alike if row[0] != both[likeness.unit_id]]
    Likeness.objects.bulk_update(told, ["alike"])
