"""The sentences at the head of the page: about the unit examined, never about intent."""
from __future__ import annotations

from .numbers import claimed_watts, number, share_in_words, volts

WIDE = 2.0              # an interval whose ends differ by more is told by its ends
ABOUT_EQUAL = 1.1
ANSWERS = {
    "supported": "The evidence supports the printed claim of {power}",
    "possible": "The evidence leaves the printed claim of {power} possible",
    "doubtful": "The evidence speaks against the printed claim of {power} without settling it",
    "implausible": "The evidence does not support the printed claim of {power}",
    "not attainable on this evidence": "The evidence does not support the printed claim of {power}",
    "no evidence": "The evidence does not decide on the printed claim of {power}",
    "evidence contradicts itself":
        "The evidence contradicts itself on the printed claim of {power}",
}


def answer_in_short(claim: dict) -> str:
    """What the evidence says about a claim that prints a power, without a full stop."""
    answer = ANSWERS[claim["verdict"]].format(power=claimed_watts(claim["power"]))
    if _only_the_voltage_is_missing(claim):
        return f"{answer} at {volts(claim['voltage'])}"
    return answer


def power_sentence(report: dict) -> str:
    """What the evidence says about the largest power claim."""
    if report["headline"] is None:
        return f"No power claim was recorded. {_without_claim(report)}"
    claim = report["claims"][report["headline"]]
    power = claimed_watts(claim["power"])
    if claim["verdict"] == "no evidence":
        return (
            "The evidence does not decide whether the unit examined can deliver the printed "
            f"{power}: too little that bears on power was recorded."
        )
    if claim["verdict"] == "evidence contradicts itself":
        return _contradiction(report, claim, power)
    answer = answer_in_short(claim)
    if _only_the_voltage_is_missing(claim):
        return _voltage_missing(report, claim, answer)
    found = _found(report, claim["power"])
    return f"{answer}: {found}." if found else f"{answer}."


def _only_the_voltage_is_missing(claim: dict) -> bool:
    """Whether the power alone would be plausible, so that no word may be held against it."""
    power, voltage = claim["plausibility_power"], claim["plausibility_voltage"]
    return None not in (power, voltage) and power >= 0.5 and voltage < 0.1


def _voltage_missing(report: dict, claim: dict, answer: str) -> str:
    at, capability = volts(claim["voltage"]), report["capability"]["low"]
    able = f", which can deliver about {watts_about(capability)} continuously" if capability else ""
    return (f"{answer}: it does not support that {at} is available in the unit "
            f"examined{able}.")


def _found(report: dict, claimed: float) -> str:
    capability = report["capability"]["low"]
    if capability is None:
        return ""
    if capability["high"] > WIDE * capability["low"]:
        return (
            "what was found leaves the unit examined anywhere between "
            f"{number(capability['low'], 2)} and {number(capability['high'], 2)}\u202fW"
        )
    about = f"the unit examined can deliver about {watts_about(capability)} continuously"
    ratio = capability["median"] / claimed
    if ratio > 1 / ABOUT_EQUAL:
        return about
    return f"{about}, {share_in_words(ratio)} of what is printed"


def watts_about(capability: dict) -> str:
    return f"{number(capability['median'], 2)}\u202fW"


def _without_claim(report: dict) -> str:
    capability = report["capability"]["low"]
    if capability is None:
        return "Nothing that bears on power was recorded either."
    ends = f"{number(capability['low'], 2)} to {number(capability['high'], 2)}\u202fW"
    return (
        f"In the unit examined a continuous output of {watts_about(capability)} is the likeliest; "
        f"{ends} fit the evidence."
    )


def _contradiction(report: dict, claim: dict, power: str) -> str:
    titles = {line["id"]: line["title"] for line in report["lines"]}
    pair = [titles.get(line_id, line_id) for line_id in claim["contradiction"] or ()]
    start = ANSWERS[claim["verdict"]].format(power=power)
    if len(pair) != 2:
        return f"{start}: the readings must be checked before it says anything."
    return f"{start}: “{pair[0]}” and “{pair[1]}” cannot both be right."


def voltage_sentence(report: dict) -> str:
    """What the evidence says about the printed voltages above 5 V; "" when none is judged."""
    judged = judged_voltages(report)
    if not judged:
        return ""
    against = [voltage for voltage, p in judged if p < 0.1]
    favoured = [voltage for voltage, p in judged if p >= 0.9]
    open_ = [voltage for voltage, p in judged if 0.1 <= p < 0.9]
    parts = []
    if favoured:
        parts.append(f"supports that it offers {_listed(favoured)}")
    if against:
        parts.append(f"does not support that it offers {_listed(against, 'or')}")
    if open_:
        parts.append(f"does not decide whether it offers {_listed(open_, 'or')}")
    return f"The evidence {_joined(parts)}."


def judged_voltages(report: dict) -> list[tuple[float, float]]:
    """Each claimed voltage above 5 V with its plausibility, the lowest first."""
    found = {
        claim["voltage"]: claim["plausibility_voltage"]
        for claim in report["claims"] if claim["plausibility_voltage"] is not None
    }
    return sorted(found.items())


def _listed(found: list[float], last: str = "and") -> str:
    return _joined([volts(voltage) for voltage in found], last)


def _joined(parts: list[str], last: str = "and") -> str:
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"
