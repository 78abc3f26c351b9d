"""What rules about safety say of one unit, as plain data: grades, findings, bench card."""
from collections.abc import Sequence

import numpy as np

from .assumptions import ASSUMPTIONS
from .bench_card import bench_card
from .explain import number, refs_of
from .findings import findings
from .grading import CANNOT_TELL, CONFIDENCE, FALLS_SHORT, GRADES, chance_short
from .pipeline import Assessment
from .quantities import QUANTITIES
from .rule import HAZARDS, Rule
from .safety_inputs import what_settles
from .safety_words import AT_ODDS, sentence
from .scenarios import is_if_moved
from .winding_drawing import stack_drawing
from .winding_stack import between


def safety_report(assessment: Assessment, row: int, refs: Sequence[str] | None = None) -> dict:
    """Everything published about what stands between mains and a hand of one unit."""
    results = [one for rule in assessment.rulebook.safety
               for one in results_of(assessment, row, rule, refs)]
    governing(results)
    return {
        "results": results,
        "assumptions": {name: ASSUMPTIONS[name] for name in
                        dict.fromkeys(name for one in results for name in one["assumed"])},
        **findings(results, assessment.rulebook.scenarios),
        "stack": stack_drawing(assessment.subjects, row, results, refs),
        "bench_card": bench_card(assessment.found, row),
    }


def governing(results: list[dict]) -> None:
    """Mark, of several paths of one kind across one barrier, the one that leaves least: the worst
    grade, then the smallest share of its requirement. What is there goes before what would be there
    if a part moved."""
    worst: dict[tuple, dict] = {}
    order = {"falls short": 0, "cannot tell": 1, "meets": 2}
    for one in results:
        one["governs"] = False
        if one["on"] != "path" or one["value"] is None:
            continue
        key = (one["rule"], one["barrier"])
        share = one["ratio"] if one["ratio"] is not None else np.inf
        rank = (is_if_moved(one), order[one["grade"]], share)
        if key not in worst or rank < worst[key]["_rank"]:
            worst[key] = one | {"_rank": rank, "_is": one}
    for one in worst.values():
        one["_is"]["governs"] = True


def results_of(assessment: Assessment, row: int, rule: Rule,
               refs: Sequence[str] | None = None) -> list[dict]:
    """What one rule says of each of a unit's subjects."""
    table, graded = assessment.subjects[rule.on], assessment.graded[rule.id]
    places = (np.flatnonzero(table.row == row) if len(table.row) or rule.on != "unit"
              else np.array([row]))
    return [_result(assessment, row, rule, table, graded, int(at), refs)
            if graded.applies[at] else _at_odds(assessment, row, rule, graded, int(at), refs)
            for at in places if is_told(assessment, row, rule, int(at))]


def is_told(assessment: Assessment, row: int, rule: Rule, at: int) -> bool:
    """Whether a rule says anything of a subject: where it applies, and where it might but for
    people who saw the unit otherwise than others did."""
    return bool(assessment.graded[rule.id].applies[at]) or (
        rule.on == "unit" and _saw_otherwise(assessment, row, rule))


def _saw_otherwise(assessment, row, rule):
    """Whether a rule that goes by what was seen alone was given one thing both ways."""
    codes = [code for code in rule.reads if code in QUANTITIES]
    return all(QUANTITIES[code].is_flag for code in codes) and any(
        code in assessment.found.columns and np.isnan(assessment.found[code].value[row])
        and assessment.evidence.behind(row, code) for code in codes)


def _at_odds(assessment, row, rule, graded, at, refs):
    made = _result(assessment, row, rule, assessment.subjects[rule.on], graded, at, refs)
    return made | {"grade": GRADES[CANNOT_TELL], "as_tabulated": GRADES[CANNOT_TELL],
                   "flagged": False, "why": 0, "reason": AT_ODDS, "sentence": AT_ODDS, "asks": []}


def _result(assessment, row, rule, table, graded, at, refs):
    value, u, low, high = (float(part[at]) for part in
                           (graded.value, graded.u, graded.low, graded.high))
    worded, flagged = int(graded.worded[at]), bool(graded.flagged[at])
    label = str(table.label[at]) if len(table.label) else ""
    return {
        "rule": rule.id, "title": rule.title, "on": rule.on, "subject": label,
        "barrier": str(table.columns["barrier"][at]) if "barrier" in table.columns else "",
        "hazard": rule.hazard, "hazard_words": HAZARDS[rule.hazard],
        "grade": GRADES[worded], "flagged": flagged,
        "as_tabulated": GRADES[int(graded.grade[at])],
        "value": number(value), "u": number(u), "low": number(low), "high": number(high),
        "unit": rule.measure, "largest": rule.largest,
        "ratio": _ratio(rule, value, low, high),
        "shortfall": _chances(rule, value, u, low, high),
        "why": int(graded.why[at]), "reason": rule.reasons[graded.why[at]],
        "sentence": sentence(rule, label, worded, flagged, value, u, low, high,
                             int(graded.why[at])),
        "confidence": CONFIDENCE[graded.confidence[at]],
        "assumed": [name for name, part in graded.assumed.items() if part[at]],
        "asks": what_settles(assessment, row, rule, at) if worded == CANNOT_TELL else [],
        "numbers": {name: number(part[at]) for name, part in graded.numbers.items()},
        "evidence": _evidence(assessment, row, rule, table, at, refs),
    }


def _ratio(rule, value, low, high):
    """Reading over requirement at the end that decides it: lenient for a shortfall. [1]"""
    required = low if not rule.largest else high
    return number(value / required) if required > 0 else None


def _chances(rule, value, u, low, high):
    """Chance that the true value misses the lenient and the demanding requirement."""
    lenient, demanding = (high, low) if rule.largest else (low, high)
    return [number(chance_short(value, u, end, rule.largest)) for end in (lenient, demanding)]


def _evidence(assessment, row, rule, table, at, refs):
    """Names of the rows that a result rests on, each once."""
    ids = [] if len(table.row) == 0 else [int(table.evidence_id[at])]
    if rule.on == "adjacency":
        ids = between(assessment.subjects, at)
    codes = [str(table.columns["code"][at])] if rule.on == "dimension" else rule.reads
    for code in codes:
        ids += assessment.evidence.behind(row, code) if code in assessment.found.columns else []
    return refs_of(list(dict.fromkeys(i for i in ids if i >= 0)), refs)


def is_short(result: dict) -> bool:
    """Whether a result may be said to fall short."""
    return result["grade"] == GRADES[FALLS_SHORT]
