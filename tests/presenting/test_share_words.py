"""A record in few words: about the unit examined, and never on power alone."""
import re

import pytest

from teardowns.engine.safety_words import EVERY_UNIT
from teardowns.engine.verdicts import WORDS
from teardowns.presenting.share_words import safety_in_short, verdict_in_short
from teardowns.presenting.wording import ANSWERS

# What is never said: basis of safety, BC-3.
NEVER = re.compile(r"fake|forged|fail|lie[sd]?\b|illegal|death|danger|certified|safe\b", re.I)


def report(verdict="supported", results=(), power=None, voltage=None):
    """power, voltage : the plausibility of each by itself"""
    return {"headline": 0, "claims": [{
                "verdict": verdict, "power": 45.0, "voltage": 20.0, "plausibility_power": power,
                "plausibility_voltage": voltage}],
            "safety": {"results": list(results)}, "capability": {"low": None, "high": None}}


# One of the ways that matter in every unit, so that the insulation is not unknown altogether.
RULE, BARRIER = sorted(EVERY_UNIT[0][1])[0]


def result(grade, hazard="shock"):
    return {"grade": grade, "hazard": hazard, "on": "path", "rule": RULE, "barrier": BARRIER,
            "title": "Clearance", "subject": "x", "unit": "m", "value": 1e-3, "u": 1e-4,
            "evidence": ["a/b"], "measured": True, "largest": False, "flagged": False,
            "low": 3e-3, "high": 3e-3, "ratio": 0.3, "governs": True}


def test_every_verdict_of_the_engine_has_its_words():
    assert set(ANSWERS) == set(WORDS)


@pytest.mark.parametrize("verdict", ANSWERS)
def test_a_verdict_is_about_the_printed_claim_and_never_about_intent(verdict):
    said = verdict_in_short(report(verdict))
    assert said.startswith("The evidence ") and "printed claim of 45\u202fW" in said
    assert not NEVER.search(said)


def test_where_the_voltage_alone_is_missing_nothing_is_said_against_the_power():
    """Plausible as a power, not as a voltage: the word is about the claim at its 20 V alone."""
    said = verdict_in_short(report("implausible", power=0.8, voltage=0.02))
    assert said == "The evidence does not support the printed claim of 45\u202fW at 20\u202fV"
    both = verdict_in_short(report("implausible", power=0.02, voltage=0.02))
    assert both.endswith("printed claim of 45\u202fW")


def test_without_a_claim_or_an_assessment_it_says_so():
    assert verdict_in_short({"headline": None}) == "No power claim was judged"
    assert verdict_in_short(None) == "Not assessed yet"


def test_what_falls_short_is_counted_first_and_what_is_open_beside_it():
    said = safety_in_short(report(results=[result("falls short"), result("cannot tell"),
                                           result("meets")]))
    assert re.match(r"Insulation: 1 point falls short, \d+ not decided$", said)


def test_nothing_found_short_is_no_reassurance_while_something_is_open():
    assert safety_in_short(report(results=[result("meets"), result("cannot tell")])).startswith(
        "Insulation: none found short, ")


def test_where_nothing_was_found_to_meet_its_figure_it_cannot_tell():
    """Basis of safety, BC-3: silence must not read as approval."""
    assert safety_in_short(report(results=[result("cannot tell")])).startswith(
        "Insulation: cannot tell, ")


def test_a_mark_that_is_missing_is_no_hazard():
    said = safety_in_short(report(results=[result("falls short", "marking")]))
    assert "falls short" not in said


def test_an_old_assessment_that_did_not_judge_safety_says_so():
    assert safety_in_short({"headline": None}) == "Insulation was not judged"
