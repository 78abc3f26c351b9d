"""How far the review of a unit's work has come, and whether a moderator can decide about it."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import F, OuterRef, Subquery
from django.db.models.functions import Coalesce

from teardowns.engine.risk import ORDER
from teardowns.models import Assessment, Correction, Review, ReviewDecision, ReviewEnding, Unit
from teardowns.reviewing.pairing import remark
from teardowns.reviewing.progress import Progress, progress
from teardowns.reviewing.words import Word, grouped, last_words
from teardowns.workflow import WAITING

from .evidence_overview import evidence_overview
from .reviewer_pairs import reviewer_pairs

NEEDED = 2               # independent confirmations before a serious finding is a headline
GRAVEST = ORDER[-1]
# The unit, and then a word's fields in their order.
SAID = ("review__unit", "ref", "evidence_version", "review__reviewer", "decision", "agrees",
        "reason", "review__correction")


@dataclass(frozen=True, slots=True)
class OpenClaim:
    """Who has taken on a review of the unit and is still at it."""

    reviewer: str
    since: datetime


@dataclass(frozen=True, slots=True)
class ClosingRemark:
    reviewer: str
    text: str
    at: datetime


@dataclass(frozen=True, slots=True)
class ReviewStanding:
    """What a moderator needs to know before deciding."""

    status: str                            # of the work
    asked: tuple[str, ...]                 # refs of the rows that are asked
    decided: tuple[str, ...]               # of these, refs with a decision by a reviewer
    disputed: tuple[str, ...]              # refs that count no more
    reviewers: tuple[str, ...]             # names of those who decided anything, or closed a review
    open_claims: tuple[OpenClaim, ...]
    remarks: tuple[ClosingRemark, ...]      # closing remarks, of this work
    serious_lacking: tuple[str, ...]       # serious findings that a second person is to confirm
    conflicts: tuple[ClosingRemark, ...]   # who declared a conflict of interest, and which
    pairing: tuple[str, ...]               # what to know of a reviewer who met the author often
    closed: int                            # reviews of this work that were closed with everything

    @property
    def undecided(self) -> tuple[str, ...]:
        done = set(self.decided)
        return tuple(ref for ref in self.asked if ref not in done)

    @property
    def is_ready(self) -> bool:
        """Whether every row that is asked has a decision; where none is asked, a closed review."""
        return (self.status in WAITING and not self.undecided
                and bool(self.asked or self.closed))

    @property
    def lacking(self) -> str:
        """Why it is not ready, in a sentence; nothing where it is."""
        if self.status not in WAITING:
            return "It is not waiting for a decision: load the page again."
        if self.undecided:
            left, of = len(self.undecided), len(self.asked)
            verb = "has" if left == 1 else "have"
            return f"{left} of {of} rows of evidence {verb} no decision by a reviewer yet."
        if not self.is_ready:
            return "No row is asked for here, and no reviewer has closed a review of it yet."
        return ""


def review_state(unit: Unit) -> ReviewStanding:
    """The state of one unit's work as it stands; six queries, however many rows there are."""
    return review_states([unit])[unit.pk]


def review_states(units: Iterable[Unit]) -> dict[int, ReviewStanding]:
    """By unit, as many queries for a hundred as for one."""
    pks = [unit.pk for unit in units]
    works = works_under_review().in_bulk(pks)
    rows, words = evidence_overview(pks), words_of(pks)
    reviews: dict[int, list[Any]] = {}
    for review in Review.objects.filter(unit__in=pks).select_related("reviewer").order_by("pk"):
        reviews.setdefault(review.unit_id, []).append(review)
    findings = _serious_findings(pks)
    met = reviewer_pairs({unit.work_author for unit in works.values()})
    return {pk: _state(unit, rows.get(pk, []), words.get(pk, []), reviews.get(pk, []),
                       findings.get(pk, []), met.get(unit.work_author, {}))
            for pk, unit in works.items()}


def works_under_review() -> Any:
    """Units with their work, and `work_submitted`: when it was handed in last."""
    open_one = Correction.objects.filter(unit=OuterRef("pk"), closed_at=None)
    return Unit.objects.with_work().annotate(
        work_submitted=Coalesce(Subquery(open_one.values("submitted_at")[:1]), "submitted_at"))


def progress_of(unit: Any) -> Progress:
    """Of a unit that came from `with_work()`: which rows are asked and decided; two queries."""
    rows = evidence_overview([unit.pk]).get(unit.pk, [])
    words = words_of([unit.pk]).get(unit.pk, [])
    return progress(rows, words, unit.work_author, unit.work_correction)


def words_of(unit_pks: Iterable[int]) -> dict[int, list[Word]]:
    """By unit, all that was ever said of its rows, in the order in which it was said."""
    found: dict[int, list[Word]] = {}
    decisions = ReviewDecision.objects.filter(review__unit__in=list(unit_pks)).order_by("pk")
    for unit, *said in decisions.values_list(*SAID):
        found.setdefault(unit, []).append(Word(*said))
    return found


def _state(unit, rows, words, reviews, findings, met):
    contributor, work = unit.work_author, unit.work_correction
    came = progress(rows, words, contributor, work)
    spoke = {reviewer for row in came.asked for reviewer in row.words}
    own = [review for review in reviews if review.correction_id == work]
    done = [review for review in own if review.ending == ReviewEnding.DONE
            and (unit.work_submitted is None or review.closed_at >= unit.work_submitted)]
    spoke |= {review.reviewer_id for review in done}
    names = {review.reviewer_id: review.reviewer.get_username() for review in reviews}
    return ReviewStanding(
        status=unit.work_status, asked=_refs(came.asked), decided=_refs(came.decided),
        disputed=came.disputed, reviewers=tuple(sorted(names[pk] for pk in spoke)),
        open_claims=tuple(OpenClaim(names[each.reviewer_id], each.opened_at) for each in reviews
                          if each.closed_at is None),
        remarks=tuple(ClosingRemark(names[each.reviewer_id], each.remark, each.closed_at)
                      for each in own if each.remark and each.closed_at),
        conflicts=tuple(ClosingRemark(names[each.reviewer_id], each.conflict, each.opened_at)
                        for each in reviews if each.conflict),
        serious_lacking=_lacking(findings, rows, words, contributor),
        pairing=tuple(filter(None, (remark(names[pk], met.get(pk, 0), sum(met.values()))
                                    for pk in sorted(spoke)))), closed=len(done))


def _refs(rows):
    return tuple(each.row.ref for each in rows)


def _lacking(findings, rows, words, contributor):
    """Serious findings of which fewer than two people have confirmed all that they rest on."""
    said, by_ref = grouped(words), {row.ref: row for row in rows}
    return tuple(one["title"] for one in findings
                 if _confirmed_by(one["evidence"], by_ref, said, contributor) < NEEDED)


def _confirmed_by(refs, rows, said, contributor):
    """As `confirmations` counts, of words that are here already."""
    everybody = [
        {pk for pk, word in last_words(rows[ref], said.get(ref, ()), contributor).items()
         if word.decision == "confirmed"} if ref in rows else set() for ref in refs]
    return len(set.intersection(*everybody)) if everybody else 0


def _serious_findings(pks):
    """By unit, the serious findings of its newest assessment of all evidence."""
    newest = Assessment.objects.filter(unit=OuterRef("unit"), confirmed_only=False).values("pk")
    grave = Assessment.objects.filter(unit__in=pks, risk=len(ORDER) - 1,
                                      pk=Subquery(newest[:1]))
    return {unit: [one for one in findings if one["level"] == GRAVEST] for unit, findings
            in grave.values_list("unit", F("payload__safety__findings"))}
