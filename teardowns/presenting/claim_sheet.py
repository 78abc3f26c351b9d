"""How one claim came to its plausibility: prior, intervals, weights, word."""
from __future__ import annotations

from django.utils.safestring import mark_safe

from teardowns.engine.verdicts import CONFLICT, STRONG, WEAK
from teardowns.figures.marks import verdict_chip
from teardowns.figures.weights import Weight, weight_bars

from .formula import formula_lines
from .links import Links, links_of
from .mains import mains_ends, mains_text
from .numbers import (
    THIN,
    claim_in_words,
    decibans,
    number,
    p_equals,
    plausibility,
    quoted,
    span,
    way,
    with_unit,
)
from .suspicion import suspect_rows
from .verdict_notes import note_on_word

RULES = (
    ("supported", "p at least 0.9: of a claimed power by itself too, and by more than habits of "
     "the trade. Below the unit’s highest voltage a test has to have been passed, for a power a "
     "load held. Not by tests alone that stopped well below the claim, not for a voltage that has "
     "to be switched to and that nobody saw or read in a list, and not where a load smaller than "
     "the claim was lost at an output that nobody named"),
    ("possible", "p from 0.5 to 0.9, or above it without what “supported” asks for"),
    ("doubtful", "p from 0.1 to 0.5, or below it by habits of the trade alone"),
    ("implausible", "p below 0.1, and not by habits of the trade alone"),
    ("not attainable on this evidence",
     "p below 0.01 at both mains ends, and a limit, a failed test or a missing mechanism carries "
     f"at least {STRONG:g} decibans of it"),
    ("no evidence", f"no line weighs {WEAK:g} decibans or more, nor do all together"),
    ("evidence contradicts itself",
     "a passed test lies above a limit, or above a failed test, by more than "
     f"{CONFLICT:g} combined standard uncertainties"),
)

# What the letters of the formula stand for.
LETTERS = (("O, p", "the odds that the claim is true, and its plausibility"),)
OF_ONE = (
    ("L(x)", "how well all the evidence fits a unit that gives x"),
    ("ℓ1, ℓ0", "how long the two ranges above are, in ln: where the claim holds, and where not"),
)
OF_BOTH = (
    ("P, U", "the power and the voltage, each with odds of its own"),
    ("w", "in what share of the cases where the claim is untrue it is the voltage alone (U), the "
     "power alone (P), or both (PU)"),
)


def claim_sheet(unit, report: dict, trace: dict) -> dict:
    """Context of the page from the unit's report and the engine's trace of one of its claims."""
    claim = next(claim for claim in report["claims"] if claim["ref"] == trace["claim"])
    links = links_of(unit)
    return {
        "unit": unit,
        "unit_address": links.unit,
        "title": quoted(claim),
        "evidence": links.evidence(claim["ref"]),
        "claim_in_words": claim_in_words(claim),
        "chip": mark_safe(verdict_chip(claim["verdict"])),
        "formula": formula_lines(trace["formula"]),
        "legend": LETTERS + (OF_BOTH if trace["power"] and trace["voltage"] else OF_ONE),
        "prior": trace["prior"],
        "intervals": _intervals(trace),
        "ends": [(mains_text(report, end), plausibility(claim["ends"][end]))
                 for end in mains_ends(report)],
        "parts": _parts(claim),
        "total": decibans(claim["total_decibans"]),
        "bars": mark_safe(_bars(claim, trace, links)),
        "capability": _capability(report),
        "words": [(mark_safe(verdict_chip(word)), rule, word == claim["verdict"])
                  for word, rule in RULES],
        "contradiction": _contradiction(report, claim),
        "suspects": suspect_rows(claim),
        "note": note_on_word(claim, report["claims"]),
    }


def _intervals(trace: dict) -> list[tuple[str, str, str]]:
    """What is claimed, where it holds and where it does not."""
    return [
        (name, *(with_unit(span(*at[side]), at["unit"]) for side in ("met", "unmet")))
        for name, at in (("Power", trace["power"]), ("Voltage", trace["voltage"])) if at
    ]


def _parts(claim: dict) -> list[tuple[str, str]]:
    """Plausibility of the power and of the voltage alone, where both are claimed."""
    found = (("its power is reached", claim["plausibility_power"]),
             ("its voltage is available", claim["plausibility_voltage"]))
    return [(what, p_equals(p)) for what, p in found if p is not None]


def _bars(claim: dict, trace: dict, links: Links) -> str:
    if not trace["weights"]:
        return ""
    bars = [
        Weight(weight["kind"], weight["title"], weight["decibans"], decibans(weight["decibans"]),
               way(weight["decibans"]), links.working(weight["line"], "low", claim["ref"]))
        for weight in trace["weights"]
    ]
    return weight_bars(
        f"Weight of evidence about the claim of {claim_in_words(claim)} at the lower mains end, in "
        "decibans: how far the odds move when this line is left out. Lines that say the same "
        "share their weight, so that the bars need not add up to the total.", bars)


def _capability(report: dict) -> list[tuple[str, str]]:
    """The pooled capability at each mains end, with its interval."""
    found = []
    for end in mains_ends(report):
        at = report["capability"][end]
        text = "cannot tell: no line of evidence" if at is None else (
            f"{with_unit(number(at['median']), 'W')}, 90{THIN}%: "
            f"{with_unit(span(at['low'], at['high']), 'W')}")
        found.append((mains_text(report, end), text))
    return found


def _contradiction(report: dict, claim: dict) -> list[str]:
    titles = {line["id"]: line["title"] for line in report["lines"]}
    return [titles.get(line_id, line_id) for line_id in claim["contradiction"] or ()]
