"""What waits for a review, for one reviewer: in which order and why, and what is not offered."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import OuterRef, Subquery
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Affiliation, Assessment, Correction, Review, ReviewEnding, Unit
from teardowns.reviewing.pairing import is_refused
from teardowns.reviewing.ranking import SERIOUS, Waiting, rank
from teardowns.workflow import WAITING

from .claim_review import DECLARED, FULL, IDLE, OWN, PAIRED, PLACES
from .conflicts import declared_ties, tie_to
from .review_state import NEEDED, OpenClaim, works_under_review
from .reviewer_pairs import reviewer_pairs

DAY = 86_400.0                        # s
STORED = ("risk", "flags", "plausibility")
DONE = "You have reviewed it; it waits for somebody else."
DECIDED = "It has been reviewed and waits for a moderator."


@dataclass(frozen=True, slots=True)
class QueueEntry:
    """One work that waits, as this reviewer sees it."""

    unit: Unit
    is_correction: bool
    since: datetime                       # when it was handed in
    score: float
    reasons: tuple[str, ...]              # what put it where it is, in words
    claims: tuple[OpenClaim, ...]         # who reviews it now
    reviewed: int                         # people who closed a review of it since it was handed in
    refusal: str                          # why it is not offered; "" where it is
    is_held: bool                         # by this reviewer
    lapses: datetime | None               # when that claim ends by itself


@dataclass(frozen=True, slots=True)
class Queue:
    held: tuple[QueueEntry, ...]          # what this reviewer is at
    offered: tuple[QueueEntry, ...]       # the first is to be looked at first
    refused: tuple[QueueEntry, ...]
    decided: int                          # works that wait for a moderator alone


def review_queue(reviewer: User, now: datetime | None = None) -> Queue:
    """Five queries, however many works wait."""
    now = now or timezone.now()
    units = list(_waiting())
    reviews = _reviews(units)
    facts = _Facts(reviewer, declared_ties(reviewer),
                   reviewer_pairs(sorted({unit.work_author for unit in units})), now)
    entries = [_entry(unit, reviews.get(unit.pk, ()), facts) for unit in units]
    entries.sort(key=lambda each: (-each.score, each.unit.pk))
    open_ones = [each for each in entries if each.refusal != DECIDED]
    return Queue(
        held=tuple(each for each in entries if each.is_held),
        offered=tuple(each for each in open_ones if not (each.is_held or each.refusal)),
        refused=tuple(each for each in open_ones if each.refusal and not each.is_held),
        decided=sum(each.refusal == DECIDED for each in entries))


def _waiting():
    """Every work that waits, with what ranks it: columns of the newest assessments alone."""
    confirmed = Assessment.objects.filter(unit=OuterRef("pk"), confirmed_only=True)
    return works_under_review().filter(
        pk__in=_handed_in(), work_status__in=WAITING, quarantined_at=None).exclude(
        status="withdrawn").with_stored(*STORED).annotate(
        stored_confirmed=Subquery(confirmed.values("plausibility")[:1])).order_by("pk")


def _handed_in() -> list[int]:
    """Asked for by themselves: among units with their work every unit would have to be looked at.
    """
    units = Unit.objects.filter(status__in=WAITING).order_by().values_list("pk")
    corrections = Correction.objects.filter(status__in=WAITING, closed_at=None)
    return [pk for pk, in units.union(corrections.order_by().values_list("unit"))]


def _reviews(units: Sequence[Unit]) -> Mapping[int, list[Review]]:
    found: dict[int, list[Review]] = {}
    asked = Review.objects.filter(unit__in=[unit.pk for unit in units])
    for review in asked.select_related("reviewer").order_by("pk").defer("sides"):
        found.setdefault(review.unit_id, []).append(review)
    return found


@dataclass(frozen=True, slots=True)
class _Facts:
    """What is known of the reviewer, for all units alike."""

    reviewer: User
    ties: list[Affiliation]
    met: dict[int, dict[int, int]]
    now: datetime


def _entry(unit: Any, reviews: Iterable[Review], facts: _Facts) -> QueueEntry:
    since = unit.work_submitted or unit.changed_at
    held = [each for each in reviews
            if each.closed_at is None and each.active_at >= facts.now - IDLE]
    mine = next((each for each in held if each.reviewer_id == facts.reviewer.pk), None)
    done = {each.reviewer_id for each in reviews if each.ending == ReviewEnding.DONE
            and each.correction_id == unit.work_correction and each.closed_at >= since}
    ranked = rank(Waiting(
        days=(facts.now - since).total_seconds() / DAY, risk=unit.stored_risk or 0,
        flags=unit.stored_flags or 0, reach=unit.listing_reach,
        plausibility=unit.stored_plausibility, confirmed=unit.stored_confirmed,
        is_held=bool(held)))
    return QueueEntry(
        unit, unit.work_correction is not None, since, ranked.score, ranked.reasons,
        tuple(OpenClaim(each.reviewer.get_username(), each.opened_at) for each in held), len(done),
        _refusal(unit, reviews, held, done, facts), mine is not None,
        mine.active_at + IDLE if mine else None)


def _refusal(unit, reviews, held, done, facts):
    """Why it is not offered, or nothing: its own first, so that nobody wonders."""
    person = facts.reviewer.pk
    if person in (unit.work_author, unit.contributor_id):
        return OWN
    if any(each.conflict for each in reviews if each.reviewer_id == person):
        return DECLARED
    if tie := tie_to(unit, (unit.work_author, unit.contributor_id), facts.ties):
        return f"{tie}."
    if len(done) >= (NEEDED if unit.stored_risk == SERIOUS else 1):
        return DECIDED
    if person in done:
        return DONE
    met = facts.met.get(unit.work_author, {})
    if is_refused(met.get(person, 0), sum(met.values())):
        return PAIRED
    return FULL if len(held) >= PLACES else ""


def waiting_unit(pk: int) -> Unit | None:
    """The unit of a line of the queue, for who may not see more of it yet."""
    return _waiting().filter(pk=pk).first()
