"""From what falls short to scenarios of harm and their risk level."""
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from .risk import BAND_WORDS, CONFIDENCE, ORDER, SEVERITIES, highest, risk
from .scenarios import Scenario, applies

HARMFUL = ("shock", "fire", "burn")
NO_SCENARIO = "No scenario is written for it yet: no level of risk is given."
NOTHING = "No scenario triggered by the evidence."


def findings(results: list[dict], scenarios: Sequence[Scenario]) -> dict[str, Any]:
    """What a unit's shortfalls can lead to.

    results : of safety_report, in its order
    Returns findings, the gravest first; level, of the gravest, "" where there is none;
    without_scenario, indices of harmful shortfalls that no scenario tells of; flags, indices of
    what can hurt and lies beyond a figure known from memory alone.
    """
    found = [made for scenario in scenarios if (made := _finding(scenario, results))]
    found.sort(key=lambda one: (ORDER.index(one["level"]), one["p_value"]), reverse=True)
    told = {index for one in found for index in one["because"]}
    harmful = [(index, one) for index, one in enumerate(results) if one["hazard"] in HARMFUL]
    return {"findings": found, "level": highest([one["level"] for one in found]),
            "without_scenario": [index for index, one in harmful
                                 if one["grade"] == "falls short" and index not in told],
            "flags": [index for index, one in harmful if one["flagged"]]}


def _finding(scenario: Scenario, results):
    because = [index for index, one in enumerate(results) if applies(scenario, one)]
    if not because:
        return None
    done = risk(scenario.severity, [step.p for step in scenario.steps])
    behind = [results[index] for index in because]
    return {
        "scenario": scenario.id, "title": scenario.title, "injury": scenario.injury,
        "hazard": behind[0]["hazard"], "severity": scenario.severity,
        "severity_words": SEVERITIES[scenario.severity],
        "steps": [{"key": step.key, "text": step.text, "p": step.p, "by": step.by,
                   "why": step.why} for step in scenario.steps],
        "p": _fraction(done.p), "p_value": float(done.p), "band": done.band,
        "band_words": BAND_WORDS[done.band], "level": done.level, "levels": list(done.levels),
        "robust": done.is_robust, "confidence": CONFIDENCE, "certainty": _certainty(behind),
        "sentence": min(behind, key=_left)["sentence"],
        "because": because,
        "evidence": list(dict.fromkeys(ref for one in behind for ref in one["evidence"])),
    }


def _fraction(p: Fraction) -> str:
    return f"{p.numerator}/{p.denominator}"


def _left(result):
    """How much of its requirement a result leaves: what has no number stands before all."""
    ratio = result["ratio"]
    return 0.0 if not ratio else 1 / ratio if result["largest"] else ratio


def _certainty(behind):
    """Chance of the surest shortfall behind it, by the scatter of its reading; None: no number."""
    chances = [one["shortfall"][0] for one in behind if one["shortfall"][0] is not None]
    return max(chances) if chances else None
