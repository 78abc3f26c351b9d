"""What two reports say differently, as it is read."""
from copy import deepcopy

import pytest

from teardowns.exchange.verdict_changes import verdict_changes
from teardowns.presenting.verdict_difference import SAME_WORDS, verdict_difference
from tests.exchange.test_verdict_changes import CLAIM, GAP, HELD, report


@pytest.fixture(scope="module")
def before():
    return report(claims=[CLAIM], insulation=[GAP | {"value": 8e-3}])


@pytest.fixture(scope="module")
def after():
    return report(claims=[CLAIM], measurements=[HELD], insulation=[GAP | {"value": 2e-4}])


def difference(was, now):
    return verdict_difference(verdict_changes(was, now))


def test_a_claim_is_named_as_printed_with_both_words(before, after):
    one, = difference(before, after).claims
    assert one.name == "“5V⎓3A”" and "no evidence" in one.was and "supported" in one.now
    assert one.remarks[0].startswith("p = 0.50") and one.remarks[1].startswith("p ")


def test_a_capability_that_was_not_known_is_no_zero(before, after):
    low, high = difference(before, after).capability
    assert low.was == high.was == "cannot tell" and low.now.endswith("W")


def test_level_finding_and_grade_stand_together_with_what_a_level_is(before, after):
    rows = {one.name: one for one in difference(before, after).safety}
    level = rows["Level of risk of the gravest finding"]
    assert level.was == "no level" and "illustration" in level.remarks[1]
    assert any(name.startswith("Finding: ") for name in rows)
    assert any("falls short" in one.now for one in rows.values())


def test_what_is_no_more_said_is_not_said(before, after):
    assert difference(after, None).claims[0].now == "not said"


def test_another_rulebook_is_named_for_its_part(after):
    found = difference(after, deepcopy(after) | {"rulebook": "4+0a1b2c3d"})
    assert "edition 4" in found.rulebooks and found.nothing == SAME_WORDS


def test_what_moves_by_less_than_its_printed_digits_is_counted_and_not_shown_as_equal(after):
    later = deepcopy(after)
    later["capability"]["low"]["median"] *= 1 + 1e-8
    found = difference(after, later)
    assert found.capability == [] and found.unseen.startswith("In one statement more")
    assert not found.nothing
