"""What the boards of a family show together: pooled, where they differ, what each would gain."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.models import FamilyPool, SisterReport

from .evidence_names import quantity_label
from .sister_boards import (
    Origin,
    changes_of,
    disagreement,
    grouped_words,
    origin_of,
    value_of,
)

BEING_WORKED_OUT = ("What the boards show together is being worked out anew, because a unit or the "
                    "rules changed. Nothing is shown meanwhile.")


@dataclass(frozen=True, slots=True)
class Reading:
    value: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Pooled:
    """One quantity, as each unit shows it."""

    name: str
    readings: list[Reading]
    differs: bool            # beyond three combined standard uncertainties


@dataclass(frozen=True, slots=True)
class FamilyBoards:
    pooled: list[Pooled]
    disagreements: list[str]
    note: str                # why nothing is shown, or ""


def family_boards(pool: FamilyPool | None) -> FamilyBoards:
    if pool is None:
        return FamilyBoards([], [], "")
    if not pool.holds:
        return FamilyBoards([], [], BEING_WORKED_OUT)
    differ = {row["about"] for row in pool.disagreements}
    by_code: dict[str, list[Mapping[str, Any]]] = {}
    for row in pool.pooled:
        by_code.setdefault(row["code"], []).append(row)
    return FamilyBoards(
        [Pooled(quantity_label(code), [Reading(value_of(row), origin_of(row)) for row in rows],
                code in differ) for code, rows in by_code.items()],
        [disagreement(row) for row in pool.disagreements], "")


def beside_by_unit(reports: Iterable[SisterReport]) -> dict[int, str]:
    """By unit, the difference in words: what sister boards would change in its verdicts.

    reports : with their publications
    """
    return {one.publication.unit_id: _words(one) for one in reports if one.holds}


def _words(report):
    grouped = grouped_words(changes_of(report))
    if grouped:
        return "; ".join(f"{now}, not {was} ({len(claims)} claim{'s' if len(claims) > 1 else ''})"
                         for (was, now), claims in grouped.items())
    return "no other word" if report.inherited else "nothing to take over"
