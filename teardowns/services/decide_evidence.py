"""What a reviewer says of one row of evidence: confirm, dispute with a reason, measure anew."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.observing.observation import DIVISOR
from teardowns.models import EVIDENCE, Review, ReviewDecision, ReviewState, Unit
from teardowns.models.evidence import Evidence, Valued
from teardowns.reviewing.words import Row, last_words, lies_within, reading_agrees, state_of

from .claim_review import held_review
from .move_work import locked_unit
from .review_sides import renew_sides
from .review_state import words_of

MODELS: dict[str, Any] = {str(model._meta.model_name): model for model in EVIDENCE}
OWN_ROW = "You entered this row yourself: somebody else decides about it."
CHANGED = "This row was changed since you saw it. Look at it again, then decide."
REASON = "Say why: what did you see instead, and where?"


class NotDecided(Exception):
    """The decision was not kept; the text is a sentence for the page."""


class ChangedRow(NotDecided):
    """The row is not the one that the reviewer saw."""


@dataclass(frozen=True)
class Reading:
    """A second reading, taken without having seen the first."""

    value: float                         # SI
    uncertainty: float | None = None     # SI, k = 1; None: not stated


@dataclass(frozen=True)
class Decided:
    word: ReviewDecision
    row: Evidence
    is_new: bool                         # False: the same had been said already
    moved: bool                          # whether the row counts now and did not, or the reverse


def decide_evidence(*, reviewer: User, unit_pk: int, ref: str, version: int, decision: str,
                    reason: str = "", reading: Reading | None = None) -> Decided:
    """Keep one decision and what follows from it for the row.

    The same decision sent twice is kept once. Raises Http404, ChangedRow or NotDecided.
    """
    with transaction.atomic():
        unit = locked_unit(unit_pk)
        access.unit_to_review(reviewer, unit_pk)
        review = held_review(reviewer, unit)
        row = _row(unit, ref)
        _check(reviewer, unit, row, version, decision, reason.strip(), reading)
        decided = _kept(review, row, decision, reason.strip(), reading)
    if decided.moved:
        renew_sides(unit)
    return decided


def _row(unit, ref):
    kind, _, key = ref.partition("/")
    row = None
    if kind in MODELS:
        row = MODELS[kind].objects.select_for_update().filter(unit=unit, key=key).first()
    if row is None:
        raise ChangedRow("This row is no longer there: load the page again.")
    return row


def _check(reviewer, unit, row, version, decision, reason, reading):
    if row.author_id == reviewer.pk:
        raise NotDecided(OWN_ROW)
    if row.version != version:
        raise ChangedRow(CHANGED)
    if decision not in ReviewState.values or decision == ReviewState.OPEN:
        raise NotDecided("Choose a decision: confirm, dispute or measure again.")
    if decision == ReviewState.DISPUTED and not reason:
        raise NotDecided(REASON)
    if decision == ReviewState.REMEASURED and not (reading and can_be_measured(row)):
        raise NotDecided("Write what you measured.")


def can_be_measured(row: Evidence) -> bool:
    """Whether the row holds a number that a second person can take as well; a flag is none."""
    quantity = QUANTITIES.get(getattr(row, "quantity", ""))
    return isinstance(row, Valued) and not (quantity and quantity.is_flag)


def _kept(review: Review, row: Any, decision: str, reason: str, reading: Reading | None) -> Decided:
    agrees = _agrees(row, reading) if reading else None
    fields = {"decision": decision, "reason": reason, "agrees": agrees,
              "second_value": reading and reading.value,
              "second_uncertainty": reading and reading.uncertainty}
    last = review.decisions.filter(ref=row.ref, evidence_version=row.version).last()
    if last is not None and all(getattr(last, name) == value for name, value in fields.items()):
        return Decided(last, row, is_new=False, moved=False)
    word = review.decisions.create(ref=row.ref, evidence_version=row.version, **fields)
    Review.objects.filter(pk=review.pk).update(active_at=timezone.now())
    moved = _settle(review.unit, row)
    record(review.reviewer, "evidence_decided", unit=review.unit, subject=row.ref,
           decision=decision, version=row.version, state=row.review_state, review=review.pk)
    return Decided(word, row, is_new=True, moved=moved)


def _agrees(row, reading):
    if getattr(row, "bound_kind", ""):
        return lies_within(row.bound_kind, row.bound, reading.value, reading.uncertainty)
    first_u = None if row.uncertainty is None else row.uncertainty / DIVISOR[row.uncertainty_kind]
    return reading_agrees(row.value, first_u, reading.value, reading.uncertainty)


def _settle(unit: Unit, row: Any) -> bool:
    """Give the row the state that all last words on it amount to; whether that moves a verdict."""
    words = words_of([unit.pk]).get(unit.pk, [])
    last = last_words(Row(row.ref, row.version, row.author_id), words, unit.work.author_id)
    before, row.review_state = row.review_state, state_of(last.values())
    if row.review_state != before:
        row.save_without_historical_record(update_fields=["review_state"])
    return row.review_state != before
