"""Take on a review, give it back, close it; and what happens to one that nobody goes on with."""
from __future__ import annotations

import logging
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Q
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Review, ReviewDecision, ReviewEnding, Unit, Work
from teardowns.reviewing.pairing import is_refused
from teardowns.workflow import WAITING, NotNow, after

from .assess_units import assess_units
from .conflicts import declared_ties, tie_to
from .move_work import locked_unit, move
from .review_sides import renew_sides
from .review_state import progress_of, works_under_review
from .reviewer_pairs import reviewer_pairs

logger = logging.getLogger(__name__)
PLACES = 2                           # people who may review one unit at the same time
IDLE = timedelta(days=7)             # a review without a decision for so long lapses
OWN = "This work is your own: somebody else reviews it."
PAIRED = ("You have reviewed this contributor’s work often: of ten reviews at most two are by the "
          "same person. Leave this one to somebody else.")
DECLARED = "You declared a conflict of interest with this unit, so somebody else reviews it."
FULL = "Two people are reviewing it already. A place is free when one of them is done."


def claim_review(*, reviewer: User, unit_pk: int, no_conflict: bool, conflict: str = "") -> Review:
    """The review that the person holds from now on; the one they hold already, if they do.

    With a conflict declared it comes back closed, and is kept. Raises Http404 or NotNow.
    """
    if no_conflict == bool(conflict.strip()):
        raise ValueError("Say that there is no conflict of interest, or which there is.")
    with transaction.atomic():
        review = _claimed(reviewer, locked_unit(unit_pk), conflict.strip())
    if review.closed_at is None and not review.sides:
        renew_sides(review.unit)
    return review


def _claimed(reviewer, unit, conflict):
    work = unit.work
    if unit.quarantined_at is not None or not reviewer.has_role("reviewer"):
        raise Http404("No such unit to review.")
    held = Review.objects.filter(unit=unit, reviewer=reviewer, closed_at=None).first()
    if held is not None:
        return held
    after(work.status, "claim")
    _lapse(unit, timezone.now())
    refused = refusal(reviewer, unit, work)
    if refused:
        raise NotNow(refused)
    if conflict:
        return _declared(reviewer, unit, work, conflict)
    if Review.objects.filter(unit=unit, closed_at=None).count() >= PLACES:
        raise NotNow(FULL)
    review = Review.objects.create(unit=unit, reviewer=reviewer, correction=work.correction,
                                   no_conflict=True)
    move(unit, "claim", reviewer, review=review.pk)
    return review


def refusal(reviewer: User, unit: Unit, work: Work) -> str:
    """Why this person does not review this work, in a sentence; nothing where they may."""
    if reviewer.pk in (work.author_id, unit.contributor_id):
        return OWN
    if Review.objects.filter(unit=unit, reviewer=reviewer).exclude(conflict="").exists():
        return DECLARED
    if tie := tie_to(unit, (work.author_id, unit.contributor_id), declared_ties(reviewer)):
        return f"{tie}. Somebody else reviews it."
    met = reviewer_pairs([work.author_id]).get(work.author_id, {})
    return PAIRED if is_refused(met.get(reviewer.pk, 0), sum(met.values())) else ""


def _declared(reviewer, unit, work, conflict):
    review = Review.objects.create(
        unit=unit, reviewer=reviewer, correction=work.correction, conflict=conflict,
        closed_at=timezone.now(), ending=ReviewEnding.CONFLICT)
    record(reviewer, "conflict_declared", unit=unit, subject=f"review/{review.pk}")
    return review


def release_review(*, reviewer: User, unit_pk: int) -> Review:
    """Give it back; what was decided stands. Raises Http404."""
    with transaction.atomic():
        review = held_review(reviewer, locked_unit(unit_pk))
        _end(review, ReviewEnding.RELEASED, reviewer)
    _assess(review.unit)
    return review


def close_review(*, reviewer: User, unit_pk: int, remark: str = "") -> Review:
    """Done: every row that this person is asked about is decided. Raises Http404 or NotNow."""
    with transaction.atomic():
        review = _closed(reviewer, unit_pk, remark)
    _assess(review.unit)
    return review


def _closed(reviewer, unit_pk, remark):
    unit = locked_unit(unit_pk)
    access.unit_to_review(reviewer, unit_pk)
    review = held_review(reviewer, unit)
    left = undecided_by(reviewer, unit)
    if left:
        rows = "1 row is" if left == 1 else f"{left} rows are"
        raise NotNow(f"{rows} still without your decision. Decide, or give the review back: what "
                     "you decided stands, and somebody else goes on.")
    review.closed_at, review.ending, review.remark = timezone.now(), ReviewEnding.DONE, remark
    review.sides = {}
    review.save(update_fields=["closed_at", "ending", "remark", "sides"])
    record(reviewer, "review_closed", unit=unit, subject=f"review/{review.pk}")
    return review


def _assess(unit):
    """With what counts now, for the queue and the moderator; what was decided is stored by now."""
    try:
        for confirmed_only in (False, True):
            assess_units([unit], confirmed_only)
    except Exception:
        logger.exception("unit %s is reviewed and could not be assessed", unit.pk)


def held_review(reviewer: User, unit: Unit) -> Review:
    """The open review that a person holds of a locked unit. Raises Http404."""
    review = Review.objects.filter(unit=unit, reviewer=reviewer, closed_at=None).first()
    if review is None:
        raise Http404("You have not taken on a review of this unit.")
    review.unit = unit
    return review


def undecided_by(reviewer: User, unit: Unit) -> int:
    """How many rows this person is asked about and has not decided."""
    came = progress_of(works_under_review().get(pk=unit.pk))
    return len(came.asked_of(reviewer.pk)) - len(came.decided_by(reviewer.pk))


def lapse_idle(now: datetime | None = None) -> int:
    """End every review in which nothing was decided for a week; how many there were.

    Safe to run twice and beside others: each unit in its own transaction.
    """
    now = now or timezone.now()
    idle = Review.objects.filter(closed_at=None, active_at__lt=now - IDLE)
    ended = 0
    for pk in idle.order_by("unit").values_list("unit", flat=True).distinct():
        with transaction.atomic():
            ended += _lapse(locked_unit(pk), now)
    return ended


def _lapse(unit, now):
    idle = list(Review.objects.filter(unit=unit, closed_at=None, active_at__lt=now - IDLE))
    for review in idle:
        review.unit = unit
        _end(review, ReviewEnding.LAPSED, None)
    return len(idle)


def _end(review, ending, actor):
    """Close it; the work waits anew where nobody holds it and nothing was decided."""
    review.closed_at, review.ending, review.sides = timezone.now(), ending, {}
    review.save(update_fields=["closed_at", "ending", "sides"])
    unit, subject = review.unit, f"review/{review.pk}"
    work = unit.work
    others = Review.objects.filter(unit=unit, closed_at=None).exists()
    said = ReviewDecision.objects.filter(
        Q(review__correction=work.correction) if work.correction else
        Q(review__correction=None), review__unit=unit).exists()
    if work.status in WAITING and not others and not said:
        move(unit, "release", actor, review=review.pk, ending=ending)
    else:
        record(actor, "review_released", unit=unit, subject=subject, ending=ending)
