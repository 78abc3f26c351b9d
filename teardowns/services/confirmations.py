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

DECIDED = ("ref", "evidence_version", "decision", "review__reviewer")


def confirmations(unit: Unit, findings: Iterable[Mapping[str, Any]],
                  rows: Mapping[str, Evidence]) -> dict[str, int]:
    """By scenario, the number of independent reviewers who confirmed all that it rests on.

    rows : by ref, the evidence as it stands; asks the database once
    """
    return counted(findings, _confirmed_by(unit, rows))


def confirmations_shown(shown: Any) -> dict[str, int]:
    """The same of a unit as a page shows it, see `shown_unit`; asks nothing without a finding."""
    report = shown.assessment.payload if shown.assessment else {}
    findings = report.get("safety", {}).get("findings")
    if not findings:
        return {}
    by_ref = {row.ref: row for found in shown.rows.values() for row in found}
    return confirmations(shown.unit, findings, by_ref)


def counted(findings: Iterable[Mapping[str, Any]],
            confirmed: Mapping[str, set[int]]) -> dict[str, int]:
    """confirmed : by ref, who confirmed the row"""
    return {one["scenario"]: len(set.intersection(*(confirmed.get(ref, set())
                                                    for ref in one["evidence"])))
            if one["evidence"] else 0 for one in findings}


def _confirmed_by(unit, rows):
    """By ref, the reviewers whose last word on the row as it stands is "confirmed"."""
    decisions = ReviewDecision.objects.filter(review__unit=unit).order_by("pk")
    return confirmed_refs(unit.contributor_id, rows, decisions.values_list(*DECIDED))


def confirmed_refs(contributor: int, rows: Mapping[str, Any],
                   decisions: Iterable[tuple[str, int, str, int]]) -> dict[str, set[int]]:
    """By ref, the reviewers whose last word on the row as it stands is "confirmed".

    Nobody confirms a row of their own, and a contributor none of the unit's.
    rows : with version and author_id; decisions : ref, version, decision, reviewer, first to last
    """
    found: dict[str, set[int]] = defaultdict(set)
    for ref, version, decision, reviewer in decisions:
        row = rows.get(ref)
        if row is None or version != row.version or reviewer in (row.author_id, contributor):
            continue
        found[ref].discard(reviewer)
        if decision == ReviewState.CONFIRMED:
            found[ref].add(reviewer)
    return found
