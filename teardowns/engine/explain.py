"""Walk one number back to its evidence, with its uncertainty budget.

Nothing is logged on the way: the explanation is the rulebook read backwards over the same
columns, so it cannot differ from what was published.
"""
from collections.abc import Sequence
from math import isfinite

import numpy as np

from .cases import OUTPUT_VOLTAGE
from .columns import DEFAULT, DERIVED, HOW, UNKNOWN
from .conditions import LOST
from .defaults import DEFAULTS, MAINS_SOURCE
from .evidence import EvidenceTable
from .judging import ENDS, Examined
from .likelihoods import MISREAD
from .lines import SHARED, Line
from .mathml import EQ, PLUS, TIMES, equation, frac, inline, num, op, paren, row, sym
from .pipeline import Assessment, examine_unit
from .posterior import ABOVE, BELOW, MET
from .quantities import QUANTITIES
from .rule import SWITCH, Rule
from .verdicts import WAYS, WORDS
from .voltages import ABOVE as VOLTAGE_ABOVE
from .voltages import LOWEST, STAYS_AT_5V, has_to_switch
from .wording import plain

COVERAGE = 1.645          # two-sided 90 %
CONDITIONS = {
    "mains_voltage": ("Mains voltage", "V"), "mains_frequency": ("Mains frequency", "Hz"),
    "output_voltage": ("Output voltage of the claim", "V"),
    "failed_tests": ("Loads that were lost in these conditions", "1"),
}
PLATE = {"mains_voltage": ("rated_voltage_low", "rated_voltage_high"),
         "mains_frequency": ("rated_frequency",)}


def number(value) -> float | None:
    """A float that JSON can carry; None for the unknown."""
    value = float(value)
    return value if isfinite(value) else None


def refs_of(ids: Sequence[int], refs: Sequence[str] | None) -> list[str]:
    """The caller's names of evidence ids, without the index of the document."""
    names = (str(i) if refs is None else str(refs[i]) for i in ids)
    return [name.split(":", 1)[-1] for name in names]


def evidence_behind(evidence: EvidenceTable, row: int, code: str) -> list[int]:
    """Ids behind one quantity, through the default that made it where nobody observed it."""
    if code in PLATE:
        return sorted({i for plate in PLATE[code] for i in evidence.behind(row, plate)})
    if code == "failed_tests":
        return evidence.behind(row, LOST)
    if code not in QUANTITIES:
        return []
    if ids := evidence.behind(row, code):
        return ids
    reads = DEFAULTS[code].reads if code in DEFAULTS else ()
    return sorted({i for read in reads if read not in PLATE
                   for i in evidence_behind(evidence, row, read.removesuffix("_u"))})


def line_of(examined: Examined, rule: Rule, end: str,
            claim: int | None = None) -> tuple[Line, int] | None:
    """A rule's line at one end, and the unit's place in it; None where the line is absent.

    claim : whose case is meant, counted among the unit's claims; without it the headline claim
    for lines about power, the highest voltage claimed for lines about voltage
    """
    power = rule.on == "power"
    lines = examined.power[ENDS.index(end)].lines if power else examined.voltage.lines
    if claim is None:
        case = int(examined.cases.headline[0]) if power else highest_voltage_claim(examined)
    else:
        case = int(examined.cases.of_claim[claim]) if power else _voltage_case(examined, claim)
    for line in lines:
        if line.rule.id == rule.id and case is not None:
            place = np.flatnonzero(line.rows == case)
            return (line, int(place[0])) if place.size else None
    return None


def _voltage_case(examined: Examined, claim: int) -> int | None:
    place = np.flatnonzero(examined.voltage.claim == claim)
    return int(place[0]) if place.size else None


def highest_voltage_claim(examined: Examined) -> int | None:
    """Which of the judged voltage claims is the highest; None without one."""
    x = examined.voltage.x
    return int(x[:, -1].argmax()) if len(x) else None


def explain(assessment: Assessment, row_number: int, line_id: str, end: str,
            refs: Sequence[str] | None = None, claim: int | None = None) -> dict | None:
    """How one line of evidence came to its value at one mains end; None where it is absent.

    claim : index into assessment.claims, as whose evidence the line is read; see `line_of`
    """
    rule = assessment.rulebook[line_id]
    examined, mine = examine_unit(assessment, row_number)
    asked = None if claim is None else mine.tolist().index(claim)
    found = line_of(examined, rule, end, asked)
    if found is None:
        return None
    line, place = found
    case = int(line.rows[place])
    frame = examined.frames[ENDS.index(end)] if rule.on == "power" else examined.voltage.frame
    variance = 0.0 if rule.kind == SWITCH else float(line.u_ln[place]) ** 2
    value, model = float(line.value[place]), float(line.model[place])
    return {
        "id": rule.id, "title": rule.title, "kind": rule.kind, "summary": rule.summary,
        "formula": rule.formula,
        "inputs": [
            _input(assessment, row_number, rule, code, frame[code].take([case]),
                   float(line.parts[j, place]), variance, value, refs)
            | (_of_claim(assessment, examined, mine, rule, asked, case, refs)
               if code == OUTPUT_VOLTAGE else {})
            for j, code in enumerate(rule.reads)],
        "model_error": model,
        "model_share": model**2 / variance if variance else 0.0,
        "scale_share": float(line.common[place]) / variance if variance else 0.0,
        "margin": rule.margin or None,
        "doubt": _doubt(line, place),
        "result": result(rule, value, float(line.u_ln[place])),
        "source": rule.source, "validity": rule.validity,
        "rulebook": assessment.rulebook.version,
    }


def _doubt(line, place):
    """How likely a part was mistaken, and how many times the value would be then; or None."""
    share, factor = (float(part[place]) for part in line.doubt)
    return {"share": share, "factor": factor} if share else None


def _of_claim(assessment, examined, mine, rule, asked, case, refs):
    """Where the output voltage comes from: the claim as whose evidence the line is read."""
    if rule.on != "power":
        asked = int(examined.voltage.claim[case])
    elif asked is None:
        of_case = np.flatnonzero(examined.cases.of_claim == case)
        asked = int(of_case[0]) if of_case.size else None
    if asked is None:
        return {"how": HOW[DEFAULT], "default_source": "No voltage is claimed: 5 V is taken."}
    return {"evidence": refs_of([int(assessment.claims.claim_id[mine[asked]])], refs)}


def result(rule: Rule, value: float, u_ln: float) -> dict:
    """Value, standard uncertainty and 90 % interval of a line; a switch has a ratio alone."""
    if rule.kind == SWITCH:
        return {"value": value, "u": None, "low": None, "high": None, "unit": "1"}
    spread = float(np.exp(COVERAGE * u_ln))
    return {"value": value, "u": value * u_ln, "low": value / spread, "high": value * spread,
            "unit": rule.unit}


def _input(assessment, row_number, rule, code, column, part, variance, value, refs):
    quantity = QUANTITIES.get(code)
    label, unit = (quantity.label, quantity.unit) if quantity else CONDITIONS[code]
    how = int(column.how[0])
    symbol = rule.symbols.get(code)
    return {
        "symbol": inline(symbol) if symbol else "", "code": code, "label": label,
        "value": number(column.value[0]), "u": number(column.u[0]), "unit": unit,
        "how": HOW[how] or "not looked at", "shared": code in SHARED,
        "default_source": _default_source(code, how),
        "evidence": refs_of(evidence_behind(assessment.evidence, row_number, code), refs)
        if how not in (UNKNOWN, DEFAULT) else [],
        "share": part * part / variance if variance else 0.0,
        "contribution": abs(part) * value,
    }


def _default_source(code, how):
    if how not in (DERIVED, DEFAULT):
        return ""
    return DEFAULTS[code].source if code in DEFAULTS else MAINS_SOURCE if code in PLATE else ""


EVEN_ODDS = equation(
    sym("O"), EQ, frac(row(op("∫"), sym("L"), paren(sym("x")), op("d"), sym("x"),
                           op("/"), sym("ℓ", "1")),
                       row(op("∫"), sym("L"), paren(sym("x")), op("d"), sym("x"),
                           op("/"), sym("ℓ", "0"))),
    op(","), sym("p"), EQ, frac(sym("O"), row(num(1), PLUS, sym("O"))))
JOINT_ODDS = equation(
    sym("O"), EQ, frac(row(sym("O", "P"), TIMES, sym("O", "U")),
                       row(sym("w", "U"), sym("O", "P"), PLUS, sym("w", "P"), sym("O", "U"), PLUS,
                           sym("w", "PU"))),
    op(","), sym("p"), EQ, frac(sym("O"), row(num(1), PLUS, sym("O"))))
PRIOR = ("Even odds: half the prior for a capability of 0.95 to 1.6 times the claim, half for "
         f"1/{BELOW:g} to 0.95 times, each log-uniform, with a fifth of either half beyond that "
         "range. Of a load that was lost, what counts is whether a unit with 0.95 to 1.1 of the "
         "claim would have lost it. A reading that several lines rest on is a gross mistake in one "
         f"case of {1 / MISREAD:.0f}, and then all of them are wrong with it; the weights are told "
         "as if none were.")
PRIOR_JOINT = (" The voltage likewise: 0.95 to 1.1 times the claim against 4.5 V to 0.95 times{}. "
               "Even odds for both together; when they are not both true, it is the voltage alone "
               "in {}, the power alone in {} and both in {} of cases. Each of the "
               "three starts at even odds of its own, so that both together may come out more "
               "plausible than one of them alone.")
AT_5V = f", {STAYS_AT_5V:g} of it at 5 V"


def _prior(claims, claim, joint):
    if not joint:
        return PRIOR
    switched = bool(has_to_switch(claims, claims.row.max() + 1)[claim])
    ways = (plain(100 * share, "%", digits=2) for share in WAYS[switched])
    return PRIOR + PRIOR_JOINT.format(AT_5V if switched else "", *ways)


def explain_claim(assessment: Assessment, claim: int, refs: Sequence[str] | None = None) -> dict:
    """How one claim came to its plausibility: prior, intervals, and every line's weight.

    claim : index into assessment.claims
    """
    judged, claims = assessment.judged, assessment.claims
    power, voltage = float(claims.claimed_power[claim]), float(claims.voltage[claim])
    joint = number(judged.plausibility_voltage[claim]) is not None
    return {
        "claim": refs_of([int(claims.claim_id[claim])], refs)[0],
        "formula": JOINT_ODDS if joint else EVEN_ODDS,
        "prior": _prior(claims, claim, joint),
        "power": _intervals(power, power / BELOW, ABOVE, "W"),
        "voltage": _intervals(voltage, LOWEST, VOLTAGE_ABOVE, "V") if joint else None,
        "plausibility": float(judged.plausibility[claim]),
        "plausibility_power": number(judged.plausibility_power[claim]),
        "plausibility_voltage": number(judged.plausibility_voltage[claim]),
        "ends": {"low": float(judged.plausibility[claim]),
                 "high": float(judged.plausibility_high[claim])},
        "verdict": WORDS[judged.verdict[claim]],
        "weights": weights(assessment, claim),
        "total_decibans": decibans_of(judged.total[claim]),
        "rulebook": assessment.rulebook.version,
    }


def _intervals(claim, lowest, above, unit):
    if not isfinite(claim):
        return None
    return {"unit": unit, "claim": claim, "met": [MET * claim, above * claim],
            "unmet": [lowest, MET * claim],
            "text": f"{plain(MET * claim, unit)} to {plain(above * claim, unit)} against "
                    f"{plain(lowest, unit)} to {plain(MET * claim, unit)}"}


def weights(assessment: Assessment, claim: int) -> list[dict]:
    """The lines that were used for a claim, the heaviest first. [decibans]"""
    used = [
        {"line": rule.id, "title": rule.title, "kind": rule.kind,
         "decibans": decibans_of(value)}
        for rule, value in zip(assessment.rulebook.lines, assessment.judged.weights[claim],
                               strict=True)
        if not np.isnan(value)]
    return sorted(used, key=lambda weight: (-abs(weight["decibans"]), weight["line"]))


def decibans_of(value) -> float:
    """The number for JSON, without a negative zero. [decibans]"""
    return float(value) + 0.0

