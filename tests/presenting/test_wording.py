import re
from copy import deepcopy

import pytest

from teardowns.presenting.wording import ANSWERS, power_sentence, voltage_sentence
from tests.figures.sample_report import REPORT, capability

NEVER = re.compile(r"\b(fake|fail\w*|lie[ds]?|illegal|dangerous|safe)\b", re.IGNORECASE)


def report(**headline):
    made = deepcopy(REPORT)
    made["claims"][0] |= headline
    return made


def test_a_claim_out_of_reach_is_told_with_what_was_found():
    # 14.6 W of 45 W are 0.324, within a tenth of a third
    assert power_sentence(REPORT) == (
        "The evidence does not support the printed claim of 45\u202fW: the unit examined can "
        "deliver about 15\u202fW continuously, a third of what is printed."
    )


@pytest.mark.parametrize("word", ANSWERS)
def test_every_verdict_word_makes_a_sentence_about_the_unit_and_never_about_intent(word):
    sentence = power_sentence(report(verdict=word))
    assert sentence.endswith(".")
    assert "45\u202fW" in sentence
    assert not NEVER.search(sentence)


def test_a_missing_voltage_is_not_held_against_the_power():
    sentence = power_sentence(report(
        verdict="implausible", plausibility_power=0.95, plausibility_voltage=0.0))
    assert sentence == (
        "The evidence does not support the printed claim of 45\u202fW at 20\u202fV: it does not "
        "support that 20\u202fV is available in the unit examined, which can deliver about "
        "15\u202fW continuously."
    )


def test_no_evidence_reads_as_undecided_and_not_as_a_pass():
    assert power_sentence(report(verdict="no evidence")).startswith(
        "The evidence does not decide whether")


def test_a_contradiction_names_both_lines():
    sentence = power_sentence(report(
        verdict="evidence contradicts itself",
        contradiction=["power/load_passed", "power/bulk_capacitor"]))
    assert "“Held regulation” and “Bulk capacitor, half-cycle energy”" in sentence


def test_a_wide_interval_is_told_by_its_ends_and_not_by_its_middle():
    # u = 0.6 in ln: exp(±1.645 · 0.6) is 0.373 and 2.68 times the median 20 W
    made = report(verdict="possible")
    made["capability"]["low"] = capability(20.0, 0.6)
    sentence = power_sentence(made)
    assert "anywhere between 7.5 and 54\u202fW" in sentence
    assert "about" not in sentence


def test_a_unit_without_a_power_claim_says_so():
    made = report() | {"headline": None}
    assert power_sentence(made).startswith("No power claim was recorded.")
    made["capability"] = {"low": None, "high": None}
    assert "Nothing that bears on power was recorded either." in power_sentence(made)


def test_the_printed_voltages_are_sorted_into_supported_and_not():
    assert voltage_sentence(REPORT) == (
        "The evidence supports that it offers 9\u202fV and does not support that it offers "
        "20\u202fV."
    )


def test_an_undecided_voltage_is_left_undecided():
    sentence = voltage_sentence(report(plausibility_voltage=0.5))
    assert "does not decide whether it offers 20\u202fV" in sentence


def test_without_a_voltage_claim_nothing_is_said_of_voltages():
    made = deepcopy(REPORT)
    for claim in made["claims"]:
        claim["plausibility_voltage"] = None
    assert voltage_sentence(made) == ""
