"""What would be said of a unit with what sister boards showed, beside what is said of it.

Other units' boards alone neither support a claim nor reject it: what they showed moves a verdict
no further than "possible" or "doubtful". They never reassure about a hazard: what met a requirement
there is not mentioned here, and what fell short there is an open question here. Both rules are our
own choice.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from teardowns.engine.rulebook import Rulebook
from teardowns.engine.verdicts import (
    DOUBTFUL,
    IMPLAUSIBLE,
    NOT_ATTAINABLE,
    POSSIBLE,
    SUPPORTED,
    WORDS,
)
from teardowns.exchange.inherited import Inherited, Sister, extended
from teardowns.exchange.verdict import verdicts
from teardowns.exchange.verdict_changes import VerdictChanges, verdict_changes

Report = Mapping[str, Any]
REJECTED = (WORDS[IMPLAUSIBLE], WORDS[NOT_ATTAINABLE])
# Rows that show the board. What the case, the plug or a test showed is of that unit alone.
OF_THE_BOARD = ("insulationobservation", "stacklayer", "component")
ELSEWHERE = ("case", "pins")             # sites of a distance that the board does not fix


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A hazard that was found on a sister board: to be looked at here."""

    scenario: str
    title: str
    level: str
    unit: int
    version: int
    refs: tuple[str, ...]


def with_sisters(document: Mapping[str, Any], rows: Sequence[Inherited],
                 rules: Rulebook | None = None) -> Report:
    """The engine's report on confirmed rows and inherited ones. Its part on safety is not to be
    used: a hazard is never judged by other units' parts."""
    report, = verdicts([extended(document, rows)], confirmed_only=True, rules=rules)
    return report


def changes_beside(own: Report, report: Report) -> VerdictChanges:
    """What the claims and the capability would be otherwise, with words held back."""
    words = {claim["ref"]: claim["verdict"] for claim in own["claims"]}
    return verdict_changes(_power_of(own, words), _power_of(report, words))


def held_back(word: str, own: str) -> str:
    """The word that may stand beside a unit's own: other boards neither support nor reject."""
    if word == own or (own in REJECTED and word in REJECTED):
        return own
    if word == WORDS[SUPPORTED]:
        return WORDS[POSSIBLE]
    return WORDS[DOUBTFUL] if word in REJECTED else word


def open_points(own: Report, sisters: Iterable[tuple[Sister, Report]]) -> list[OpenPoint]:
    """Hazards of sister boards that this unit's own evidence does not show, the first of each."""
    known = {finding["scenario"] for finding in own.get("safety", {}).get("findings", ())}
    found: dict[str, OpenPoint] = {}
    for sister, report in sisters:
        for point in _points(sister, report):
            if point.scenario not in known:
                found.setdefault(point.scenario, point)
    return list(found.values())


def _points(sister: Sister, report: Report) -> Iterator[OpenPoint]:
    sites = {f"insulationobservation/{row['key']}": row["site"]
             for row in sister.document["insulation"]}
    for finding in report.get("safety", {}).get("findings", ()):
        refs = tuple(finding["evidence"])
        if refs and all(ref.split("/")[0] in OF_THE_BOARD and sites.get(ref) not in ELSEWHERE
                        for ref in refs):
            yield OpenPoint(finding["scenario"], finding["title"], finding["level"], sister.unit,
                            sister.version, refs)


def _power_of(report, words):
    """A report without what it says of safety and of checks."""
    claims = [claim | {"verdict": held_back(claim["verdict"], words[claim["ref"]])}
              for claim in report["claims"] if claim["ref"] in words]
    return {"claims": claims, "capability": report["capability"]}
