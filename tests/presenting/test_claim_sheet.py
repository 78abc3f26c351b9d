"""The rules of the words, as the page tells them, against the engine that applies them."""
import numpy as np
import pytest

from teardowns.engine.rule import LIMIT, PRACTICE
from teardowns.engine.verdicts import STRONG, WEAK, WORDS, verdict_words
from teardowns.presenting.claim_sheet import RULES


def word(p, weight=20.0, kind=LIMIT, high=None, conflict=False):
    high = p if high is None else high
    index = verdict_words(np.array([p]), np.array([high]), np.array([weight]),
                          np.array([[weight]]), np.array([kind]), np.array([conflict]))
    return WORDS[index[0]]


def test_every_word_has_its_rule_once():
    assert sorted(name for name, _ in RULES) == sorted(WORDS)


@pytest.mark.parametrize(("p", "name"), [
    (0.9, "supported"), (0.899, "possible"), (0.5, "possible"), (0.499, "doubtful"),
    (0.1, "doubtful"), (0.099, "implausible"),
])
def test_the_thresholds_told_are_the_thresholds_used(p, name):
    assert word(p) == name
    assert any(told == name and str(round(p, 1)) in rule for told, rule in RULES)


def test_not_attainable_needs_both_ends_and_a_line_that_carries_it():
    assert word(0.009, -STRONG, LIMIT) == "not attainable on this evidence"
    assert word(0.009, -STRONG, LIMIT, high=0.02) == "implausible"
    assert word(0.009, -STRONG, PRACTICE) == "doubtful"
    assert word(0.009, -STRONG + 0.1, LIMIT) == "implausible"


def test_no_evidence_and_contradiction_are_told_as_they_are_used():
    assert word(0.5, WEAK - 0.1) == "no evidence"
    assert word(0.5, WEAK) == "possible"
    assert word(0.99, conflict=True) == "evidence contradicts itself"
