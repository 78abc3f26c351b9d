"""Everything the comparison places, prepared."""
from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from core.words.as_written import AsWritten
from core.words.said import said

from .compare_claims import compared_claims
from .compare_columns import columns_of
from .compare_curves import compared_curves_shown
from .compare_numbers import compared_inside, compared_masses
from .compare_parts import compared_parts
from .compare_photos import compared_photos
from .compare_power import compared_power, headline
from .compare_safety import compared_findings, compared_insulation
from .compare_windings import compared_windings
from .compared_explanation import explanation
from .compared_facts import facts_of
from .power_section import kind_key
from .record_foot import rulebook_text

COUNTED = ("no", "one", "two", "three", "four", "five", "six")
# What is said of the claims that a verdict fits, most reassuring first.
SAID = (
    ("supported", "{} the evidence supports the claim"),
    ("possible", "{} the claim is possible on the evidence"),
    ("doubtful", "{} the evidence leaves the claim doubtful"),
    ("implausible", "{} the evidence speaks against the claim"),
    ("not attainable on this evidence", "{} the claim is not attainable on the evidence"),
    ("no evidence", "{} there is no evidence that weighs on the claim"),
    ("evidence contradicts itself", "{} the evidence contradicts itself"),
    ("", "{} no power claim was recorded"),
)


def compare_sheet(units: Sequence[Any], curves: Sequence[Any], stage: str = "") -> dict[str, Any]:
    """Context of the page. units : of services.compared_units; curves : of compared_curves"""
    columns = columns_of(units)
    facts = [facts_of(column) for column in columns]
    return {
        "columns": columns, "count": len(columns),
        "title": f"{COUNTED[len(columns)].capitalize()} units compared",
        "lead": _lead(columns), "explanation": explanation(facts),
        "claims": compared_claims(columns), "power": compared_power(columns),
        "kinds": kind_key(), "masses": compared_masses(columns, facts),
        "inside": compared_inside(columns, facts), "parts": compared_parts(columns),
        "windings": compared_windings(columns), "insulation": compared_insulation(columns),
        "findings": compared_findings(columns), "photos": compared_photos(columns, stage),
        "curves": compared_curves_shown(columns, curves), "foot": _foot(columns),
    }


def _lead(columns) -> str:
    """How many claims each verdict fits: "For one the evidence supports the claim; …" """
    verdicts = Counter((headline(column.report) or {"verdict": ""})["verdict"]
                       for column in columns)
    text = said("; for ").join(said(words.format(COUNTED[verdicts[word]]))
                               for word, words in SAID if verdicts[word])
    return AsWritten(said(f"Of the {COUNTED[len(columns)]} units examined, for {text}."))


def _foot(columns) -> list[tuple[str, str]]:
    rulebooks = {column.report["rulebook"] for column in columns}
    versions = ", ".join(
        f"{column.letter}: unit {column.compared.unit.pk}, version "
        f"{column.compared.publication.number}" for column in columns)
    several = (" The units were assessed under different rulebooks: what differs between them may "
               "come from that." if len(rulebooks) > 1 else "")
    return [("Records", versions),
            ("Rulebook", "; ".join(map(rulebook_text, sorted(rulebooks))) + "." + several),
            ("Samples", "Each unit is a sample of one.")]
