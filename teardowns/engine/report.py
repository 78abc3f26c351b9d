"""One unit's assessment as a plain, JSON-ready dict: what pages, figures and files read."""
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .cases import headline_claims
from .checks import run_checks
from .claims import ClaimTable
from .columns import DEFAULT, DERIVED
from .defaults import CONDITIONED, DEFAULTS
from .explain import (
    evidence_behind,
    highest_voltage_claim,
    line_of,
    number,
    refs_of,
    result,
    weights,
)
from .feedback import feedback
from .judging import ENDS, Examined
from .next_steps import next_steps
from .pipeline import Assessment, examine_unit, frames_by_port
from .posterior import POINTS, density
from .quantities import QUANTITIES
from .rule import CONDITIONS, Rule
from .safety_report import safety_report
from .subjects import facts_of_unit
from .suspects import suspects
from .verdicts import CONTRADICTION, DOUBTFUL, POSSIBLE, WORDS
from .wording import plain, sentence_case, shown

DENSITY_POINTS = 60
FLAT = 1e-3               # relative density that no figure shows
NEARLY_NONE = 0.01


def report(assessment: Assessment, row: int, refs: Sequence[str] | None = None) -> dict:
    """Everything published about one unit.

    refs : the caller's names, by evidence id and by claim id: "0:measurement/mass" or without
    the index of the document
    """
    examined, mine = examine_unit(assessment, row)
    claims = assessment.claims.take(mine)
    gaps = {rule.id: _missing(assessment, row, rule) for rule in assessment.rulebook.lines}
    met = [rule for rule in assessment.rulebook.lines if not gaps[rule.id]]
    unmet = [rule for rule in assessment.rulebook.lines if gaps[rule.id]]
    return {
        "rulebook": assessment.rulebook.version,
        "mains": _mains(assessment, row),
        "capability": _capability(examined),
        "lines": [_line(assessment, row, examined, rule, refs) for rule in met],
        "unmeasured": [{"id": r.id, "title": r.title, "reads": gaps[r.id]} for r in unmet],
        "claims": [_claim(assessment, row, int(i), refs)
                   | {"suspects": suspects(assessment, examined, mine, int(i))} for i in mine],
        "headline": _headline(claims),
        "checks": _checks(assessment, row, claims, refs),
        "feedback": feedback(assessment.frame, row),
        "open_questions": [*_plate_question(assessment, row, met),
                           *(q for r in unmet for q in _questions(r, gaps[r.id]))],
        "next_steps": next_steps(assessment, row, examined, mine),
        "safety": safety_report(assessment, row, refs),
    }


def _mains(assessment, row):
    frame = assessment.frame
    return {
        end: {"voltage": float(frame[f"mains_{end}"].value[row]),
              "frequency": float(frame["mains_frequency"].value[row]),
              "assumed": int(frame[f"mains_{end}"].how[row]) == DEFAULT}
        for end in ENDS}


def _capability(examined: Examined):
    case, judged = int(examined.cases.headline[0]), examined.judged
    grid = np.exp(examined.grid.points()[case])
    found = {}
    for at, end in enumerate(ENDS):
        median, low, high = judged.capability[0, at].tolist()
        whole = density(examined.power[at].total)[case]
        picks = _hill(whole)
        watts, curve = grid[picks], whole[picks]
        found[end] = None if np.isnan(median) else {
            "median": median, "low": low, "high": high,
            "density": [list(pair) for pair in zip(watts.tolist(), curve.tolist(), strict=True)]}
    return found


def _hill(curve):
    """Indices of at most DENSITY_POINTS points, all of them where the density shows."""
    seen = np.flatnonzero(curve > FLAT)
    first, last = max(seen[0] - 1, 0), min(seen[-1] + 1, POINTS - 1)
    return np.unique(np.linspace(first, last, DENSITY_POINTS).round().astype(int))


def _missing(assessment: Assessment, row: int, rule: Rule) -> list[str]:
    """The quantities without which the line cannot exist; where it can rest on none of the
    required ones, one of the optional ones is enough."""
    def unknown(code):
        return bool(np.isnan(assessment.frame[code].value[row]))

    needed = [code for code in rule.required if code not in CONDITIONS and code not in CONDITIONED]
    missing = [code for code in needed if unknown(code)]
    optional = [code for code in rule.reads if code in rule.optional]
    rests = any(code not in DEFAULTS or DEFAULTS[code].how == DERIVED for code in needed)
    if optional and not rests and all(unknown(code) for code in optional):
        missing += optional
    return missing


def _line(assessment, row, examined, rule, refs):
    ends = {end: _at_end(examined, rule, end) for end in ENDS}
    used = any(ends.values())
    return {
        "id": rule.id, "target": rule.on, "kind": rule.kind, "title": rule.title,
        "unit": rule.unit, "ends": ends,
        "detail": _detail(assessment.frame, row, rule),
        "evidence": refs_of(_ids(assessment, row, rule), refs),
        "used": used, "why_not": "" if used else _why_not(examined, rule),
    }


def _at_end(examined, rule, end):
    found = line_of(examined, rule, end)
    if found is None:
        return None
    line, place = found
    at = result(rule, float(line.value[place]), float(line.u_ln[place]))
    if rule.kind == "switch":
        return {"value": None, "low": None, "high": None, "u_ln": None}
    return {"value": at["value"], "low": at["low"], "high": at["high"],
            "u_ln": float(line.u_ln[place])}


def _ids(assessment, row, rule):
    """Evidence ids behind a line, each once, in the order in which the rule reads."""
    ids = (i for code in rule.reads for i in evidence_behind(assessment.evidence, row, code))
    return list(dict.fromkeys(ids))


def _detail(frame, row, rule):
    """The observations put in, in words: "15 µF, full-wave rectifier found"."""
    parts = []
    for code in rule.reads:
        column = frame[code]
        if code in QUANTITIES and int(column.how[row]) not in (0, DEFAULT):
            value = shown(code, float(column.value[row]))
            bare = QUANTITIES[code].unit == "1"       # a flag, a ratio, a count: say of what
            parts.append(f"{QUANTITIES[code].label.lower()} {value}" if bare else value)
    return ", ".join(parts)


def _why_not(examined, rule):
    if rule.on == "voltage" and highest_voltage_claim(examined) is None:
        return "No voltage above 5.5 V is claimed."
    return rule.silent_ports if rule.silent_ports and examined.cases.several.any() else rule.silent


def _claim(assessment, row, index, refs):
    judged, claims = assessment.judged, assessment.claims
    pair = judged.conflict[index].tolist()
    ids = [assessment.rulebook.lines[j].id for j in pair] if pair[0] >= 0 else None
    low, high = (float(p[index]) for p in (judged.plausibility, judged.plausibility_high))
    return {
        "ref": refs_of([int(claims.claim_id[index])], refs)[0],
        "text": claim_text(claims, index), "kind": str(claims.kind[index]),
        "voltage": number(claims.voltage[index]), "current": number(claims.current[index]),
        "power": number(claims.claimed_power[index]),
        "plausibility": low,
        "plausibility_power": number(judged.plausibility_power[index]),
        "plausibility_voltage": number(judged.plausibility_voltage[index]),
        "verdict": WORDS[judged.verdict[index]],
        "verdict_note": _note(assessment, row, index),
        "weights": [{key: w[key] for key in ("line", "decibans", "kind")}
                    for w in weights(assessment, index)],
        "total_decibans": float(judged.total[index]) + 0.0,
        "ends": {"low": low, "high": high},
        "contradiction": ids,
    }


def claim_text(claims: ClaimTable, index: int) -> str:
    """The claim in figures: "20 V ⎓ 2.25 A (45 W)"."""
    voltage, current = float(claims.voltage[index]), float(claims.current[index])
    rating = [plain(value, unit) for value, unit in ((voltage, "V"), (current, "A"))
              if not np.isnan(value)]
    power = number(claims.claimed_power[index])
    if power is None:
        return " ⎓ ".join(rating)
    watts = plain(power, "W")
    return f"{' ⎓ '.join(rating)} ({watts})" if rating else watts


def _note(assessment, row, index):
    judged = assessment.judged
    if judged.verdict[index] == CONTRADICTION:
        above, below = (assessment.rulebook.lines[j].title for j in judged.conflict[index])
        return (f"{sentence_case(above)} lies above “{below}”: one of the two observations does "
                "not describe this unit.")
    low, high = judged.plausibility[index], judged.plausibility_high[index]
    if withheld := WITHHELD.get((judged.verdict[index], _word(low))):
        return withheld
    if _word(low) == _word(high):
        return ""
    ends = [plain(float(assessment.frame[f"mains_{end}"].value[row]), "V") for end in ENDS]
    return (f"At the low end of the rated mains range only: plausibility {_p(low)} at {ends[0]}, "
            f"{_p(high)} at {ends[1]}. A claim covers the whole range.")


# The lines that speak are not of the kind that decides: the word stays behind the plausibility.
WITHHELD = {
    (POSSIBLE, 4): "No test that was passed shows this rating by itself: a load test at this "
                   "voltage would decide.",
    (DOUBTFUL, 1): "Habits of the trade alone speak against it: they do not condemn a claim.",
    (DOUBTFUL, 0): "Habits of the trade alone speak against it: they do not condemn a claim.",
}


def _word(p):
    return sum(p >= edge for edge in (NEARLY_NONE, 0.1, 0.5, 0.9))


def _p(p):
    return "below 0.01" if p < NEARLY_NONE else "above 0.99" if p > 0.99 else f"{p:.2f}"


def _headline(claims):
    found = int(headline_claims(replace(claims, row=np.zeros(len(claims.row), int)), 1)[0])
    return None if found < 0 else found


def _checks(assessment, row, claims, refs):
    ports = assessment.ports.one(row)
    here = replace(claims, row=np.zeros(len(claims.row), int))
    done = run_checks(assessment.rulebook, frames_by_port(assessment, row, ports), here, ports,
                      facts_of_unit(assessment.subjects, row))
    return [
        {"id": one.rule.id, "title": one.rule.title,
         "claim": _claim_ref(claims, one.subject.claim, refs),
         "port": None if one.subject.port is None else str(ports.label[one.subject.port]),
         "outcome": one.outcome.outcome, "sentence": one.outcome.sentence,
         "numbers": {name: number(value) for name, value in one.outcome.numbers.items()}}
        for one in done]


def _claim_ref(claims, index, refs):
    return None if index is None else refs_of([int(claims.claim_id[index])], refs)[0]


def _plate_question(assessment, row, met):
    """What is asked where the mains range had to be assumed, for the first line that reads it."""
    if int(assessment.frame["mains_low"].how[row]) == DEFAULT:
        reader = next(rule for rule in (*met, *assessment.rulebook.lines)
                      if "mains_voltage" in rule.reads)
        yield {"text": "Which input voltage does the plate print? It was not read, so that the "
                       "better case for the claims, 220 to 240 V only, is taken.",
               "reads": ["rated_voltage_low", "rated_voltage_high"], "rule": reader.id}


def _questions(rule, missing):
    """The open questions of one line; a rule that asks "" leaves the question to another."""
    for code in missing:
        label = QUANTITIES[code].label
        text = rule.asks.get(code, f"{label} was not recorded." if not rule.asks else "")
        if text:
            yield {"text": text, "reads": missing, "rule": rule.id}
