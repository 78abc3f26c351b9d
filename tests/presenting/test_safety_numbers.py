"""The numbers behind a requirement have names and units that a person reads."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.presenting.safety_numbers import number_in_words, number_label, stem_and_end
from tests.engine.rules.safety.any_inputs import random_inputs, run


@pytest.mark.parametrize("rule", rulebook.load().safety, ids=lambda rule: rule.id)
def test_every_number_that_a_rule_shows_has_a_name_and_a_unit(rule):
    shown = run(rule, random_inputs(rule, np.random.default_rng(1), 50)).numbers
    for name in shown:
        assert number_label(stem_and_end(name)[0]) and number_in_words(
            stem_and_end(name)[0], 1.0)


def test_a_number_is_printed_in_its_unit():
    assert number_in_words("capacitance", 2.2e-9) == "2.2\u202fnF"
    assert number_in_words("transient", 2500.0) == "2500\u202fV"


def test_both_ends_of_a_number_share_its_name():
    assert stem_and_end("transient_low") == ("transient", "low")
    assert stem_and_end("legacy_limit") == ("legacy_limit", "both")
