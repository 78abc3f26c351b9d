"""How many people have looked independently at what a finding rests on.

A serious finding becomes a headline only when two reviewers, neither of them the contributor, have
confirmed every row behind it as it stands now. The reviewing itself is another room's work.
"""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from teardowns.models import ReviewDecision, ReviewState, Unit
from teardowns.models.evidence import Evidence


def confirmations(unit: Unit, findings: Iterable[Mapping[str, Any]],
                  rows: Mapping[str, Evidence]) -> dict[str, int]:
    """By scenario, the number of independent reviewers who confirmed all that it rests on.

    rows : by ref, the evidence as it stands; asks the database once
    """
    confirmed = _confirmed_by(unit, rows)
    return {one["scenario"]: len(set.intersection(*(confirmed[ref] for ref in one["evidence"])))
            if one["evidence"] else 0 for one in findings}


def _confirmed_by(unit, rows):
    """By ref, the reviewers whose last word on the row as it stands is "confirmed".

    Nobody confirms a row of their own.
    """
    found: dict[str, set[int]] = defaultdict(set)
    decisions = ReviewDecision.objects.filter(review__unit=unit).exclude(
        review__reviewer=unit.contributor_id).order_by("pk")
    for ref, version, decision, reviewer in decisions.values_list(
            "ref", "evidence_version", "decision", "review__reviewer"):
        row = rows.get(ref)
        if row is None or version != row.version or reviewer == row.author_id:
            continue
        found[ref].discard(reviewer)
        if decision == ReviewState.CONFIRMED:
            found[ref].add(reviewer)
    return found
