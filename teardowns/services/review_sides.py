"""What confirmed evidence says of a unit, and what all of it says, while a review is open.

It is kept with the open reviews, so that their page needs no engine; it is renewed whenever a
decision makes a row count or cease to count.
"""
from __future__ import annotations

import logging
from collections import Counter
from collections.abc import Mapping
from typing import Any

from teardowns.exchange.rules import EVIDENCE_LISTS
from teardowns.exchange.verdict import verdicts
from teardowns.models import Review, Unit

from .active_rulebook import active_rulebook
from .export_unit import unit_document

logger = logging.getLogger(__name__)
CLAIM = ("ref", "printed", "verdict", "plausibility", "power")
FINDING = ("scenario", "title", "level", "evidence")
SMALL = 0.5                      # dB: a line that moves a claim by less is not worth a sentence


def review_sides(unit: Unit) -> dict[str, Any]:
    """`confirmed` and `all`: claims, capability and findings of each; `rests`: by ref, what is
    computed from a row, the gravest first; `removed`: by list, rows that a correction took out."""
    document, rules = unit_document(unit), active_rulebook()
    everything, = verdicts([document], False, rules)
    confirmed, = verdicts([document], True, rules)
    return {"rulebook": everything["rulebook"], "all": _side(everything),
            "confirmed": _side(confirmed), "rests": _rests(everything, document),
            "removed": _removed(unit, document)}


def renew_sides(unit: Unit) -> None:
    """Of every open review of the unit. The decisions are stored by now: trouble in the engine
    must not look like a lost decision."""
    try:
        sides = review_sides(unit)
    except Exception:
        logger.exception("unit %s is under review and could not be assessed", unit.pk)
        sides = {}
    Review.objects.filter(unit=unit, closed_at=None).update(sides=sides)


def _removed(unit, document):
    """Rows of the version that a correction starts from, which are no longer there."""
    correction = unit.work.correction
    if correction is None:
        return {}
    before = correction.base.document
    left = {name: {row["key"] for row in document[name]} for name in EVIDENCE_LISTS}
    gone = {name: [row for row in before[name] if row["key"] not in left[name]]
            for name in EVIDENCE_LISTS}
    return {name: rows for name, rows in gone.items() if rows}


def _side(report: Mapping[str, Any]) -> dict[str, Any]:
    capability = report["capability"]["low"]
    return {
        "claims": [{name: claim[name] for name in CLAIM} for claim in report["claims"]],
        "capability": capability and [capability[end] for end in ("low", "median", "high")],
        "level": report["safety"]["level"],
        "findings": [{name: one[name] for name in FINDING}
                     for one in report["safety"]["findings"]],
    }


def _rests(report: Mapping[str, Any], document: Mapping[str, Any]
           ) -> dict[str, list[dict[str, Any]]]:
    found: dict[str, list[dict[str, Any]]] = {}
    for claim in report["claims"]:
        _add(found, [claim["ref"]], {"kind": "claim", "verdict": claim["verdict"]})
    read = Counter(row.get("printed_text") for row in document["claims"])
    for row in document["printed_texts"]:
        if count := read[row["key"]]:
            _add(found, [f"printedtext/{row['key']}"], {"kind": "claims", "count": count})
    for one in report["safety"]["findings"]:
        _add(found, one["evidence"], {"kind": "finding", "title": one["title"],
                                      "level": one["level"]})
    for line in report["lines"]:
        if line["used"] and (moved := _moved(report, line["id"])):
            _add(found, line["evidence"], {"kind": "line", "title": line["title"], **moved})
    for one in report["safety"]["results"]:
        _add(found, one["evidence"], {"kind": "result", "title": one["title"],
                                      "grade": one["grade"], "on": one["subject"]})
    return found


def _add(found, refs, entry):
    for ref in dict.fromkeys(refs):
        entries = found.setdefault(ref, [])
        if entry not in entries:
            entries.append(entry)


def _moved(report, line_id):
    """The claim that a line moves most and by how much, or None where it moves none."""
    weights = [(weight["decibans"], claim["printed"]) for claim in report["claims"]
               for weight in claim["weights"] if weight["line"] == line_id]
    decibans, printed = max(weights, key=lambda pair: abs(pair[0]), default=(0.0, ""))
    return {"decibans": decibans, "claim": printed} if abs(decibans) >= SMALL else None
