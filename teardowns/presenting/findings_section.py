"""What the shortfalls of a unit can lead to: each finding with scenario, level and certainty."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.findings import NO_SCENARIO, NOTHING
from teardowns.engine.risk import BESIDE, ILLUSTRATION, SOURCE
from teardowns.figures.risk_matrix import risk_matrix

from .links import Links
from .numbers import chance, number
from .reach import reach_sentence
from .safety_points import subject_keys, title_with_subject

NEEDED = 2               # independent confirmations before a serious finding is a headline


@dataclass(frozen=True, slots=True)
class Finding:
    title: str
    level: str
    span: str                        # "serious, or high one band less probable"
    sentence: str
    because: list[tuple[str, str]]   # address and words of each result behind it
    steps: list[dict[str, str]]
    product: str                     # "1/4 000, more than 1/10 000"
    caption: str                     # harm and severity
    certainty: str
    confirmed: str
    is_headline: bool
    matrix: SafeString


def findings_section(report: dict | None, unit: Any, links: Links,
                     confirmations: dict[str, int]) -> dict | None:
    """Context of the part; None where the unit has not been assessed.

    confirmations : by scenario, how many independent reviewers confirmed all that it rests on
    """
    if report is None:
        return None
    safety = report["safety"]
    places = [_behind(one, key, links) for one, key in
              zip(safety["results"], subject_keys(safety["results"]), strict=True)]
    found = [_finding(one, places, confirmations.get(one["scenario"], 0))
             for one in safety["findings"]]
    return {
        "level": safety["level"], "findings": found,
        "nothing": NOTHING if not found and not safety["without_scenario"] else "",
        "untold": [places[index] for index in safety["without_scenario"]],
        "no_scenario": NO_SCENARIO, "illustration": ILLUSTRATION, "source": SOURCE,
        "beside": BESIDE, "reach": reach_sentence(unit),
        "headlines": [one.title for one in found if one.is_headline],
    }


def _finding(one, places, confirmed) -> Finding:
    return Finding(
        title=one["title"], level=one["level"], span=_span(one), sentence=one["sentence"],
        because=[places[index] for index in one["because"]],
        steps=[{"text": step["text"], "p": step["p"], "by": step["by"], "why": step["why"]}
               for step in one["steps"]],
        product=f"{chance(one['p'])}, {one['band_words']}",
        caption=f"{one['title']}: {one['injury']} (severity {one['severity']}: "
                f"{one['severity_words']})",
        certainty=_certainty(one["certainty"]), confirmed=confirmed_words(confirmed),
        is_headline=one["level"] == "serious" and confirmed >= NEEDED,
        matrix=mark_safe(risk_matrix(one["title"], one["severity"], one["band"])))


def _span(one):
    up, here, down = one["levels"]
    if one["robust"]:
        return "The same one band up or down."
    changed = [f"{level} one band {way}" for level, way in
               ((up, "more probable"), (down, "less probable")) if level != here]
    return f"{', '.join(changed).capitalize()}."


def _behind(result, key, links):
    """Address of the working and name of one result."""
    return links.safety(result["rule"], key), title_with_subject(result)


def _certainty(chance):
    if chance is None:
        return "It rests on what was seen, not on a number."
    shown = "above 0.999" if chance > 0.999 else number(chance, 3)
    return f"Chance that it falls short, by the scatter of the reading: {shown}."


def confirmed_words(count: int) -> str:
    """How far a finding is from being a headline."""
    if count >= NEEDED:
        return f"Confirmed by {count} reviewers, none of them the contributor."
    return (f"{count} of {NEEDED} independent reviewers confirmed every row of evidence that it "
            "rests on: not a headline yet. A row by itself needs one.")

