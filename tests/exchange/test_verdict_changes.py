"""Words that moved between two reports, and the numbers behind them."""
from copy import deepcopy

import pytest

from teardowns.exchange.verdict import verdicts
from teardowns.exchange.verdict_changes import headline_word, level_of, verdict_changes
from tests.exchange.small import small

CLAIM = {"key": "out", "kind": "output", "text": "5V⎓3A", "voltage_low": 5.0, "voltage_high": 5.0,
         "current": 3.0}
HELD = {"quantity": "sustained_power", "value": 15.2, "uncertainty": 0.1,
        "uncertainty_kind": "standard", "duration": 1800.0, "output_voltage": 5.0,
        "mains_voltage": 230.0}
GAP = {"path": "clearance", "barrier": "PRI_SEC", "place": "board", "uncertainty": 1e-4,
       "uncertainty_kind": "standard"}


def report(**lists):
    return verdicts([small(**lists)])[0]


@pytest.fixture(scope="module")
def before():
    return report(claims=[CLAIM], insulation=[GAP | {"value": 8e-3}])


@pytest.fixture(scope="module")
def after():
    return report(claims=[CLAIM], measurements=[HELD], insulation=[GAP | {"value": 2e-4}])


def test_a_report_does_not_differ_from_itself(after):
    found = verdict_changes(after, deepcopy(after))
    assert not found and found.rulebook is None and found.words == ()


def test_a_word_that_moved_is_named_with_both_words(before, after):
    one, = verdict_changes(before, after).words
    assert (one.about, one.was["verdict"]) == ("claim/out", "no evidence")
    assert one.now["verdict"] == headline_word(after) != "no evidence"


def test_the_capability_at_both_ends_of_the_mains_is_told(before, after):
    ends = {one.about: (one.was, one.now) for one in verdict_changes(before, after).capability}
    assert set(ends) == {"low", "high"}
    assert all(was is None and now["low"] <= now["median"] <= now["high"]
               for was, now in ends.values())


def test_a_gap_that_falls_short_moves_grade_finding_and_level(before, after):
    found = verdict_changes(before, after)
    grades = {(one.now or one.was)["title"]: one for one in found.grades}
    assert any(one.now and one.now["grade"] == "falls short" for one in grades.values())
    assert (found.level.was, found.level.now) == (level_of(before), level_of(after))
    assert [one.now["level"] for one in found.findings if one.now]


def test_the_way_back_is_the_way_there_turned_round(before, after):
    there, back = verdict_changes(before, after), verdict_changes(after, before)
    for name in ("claims", "capability", "findings", "grades", "checks"):
        assert {(one.about, str(one.was), str(one.now)) for one in getattr(there, name)} == {
            (one.about, str(one.now), str(one.was)) for one in getattr(back, name)}


def test_what_a_float_loses_is_no_change(after):
    later = deepcopy(after)
    later["claims"][0]["plausibility"] *= 1 - 1e-12
    later["capability"]["low"]["median"] *= 1 + 1e-12
    assert not verdict_changes(after, later)


def test_another_rulebook_that_says_the_same_is_no_change(after):
    found = verdict_changes(after, deepcopy(after) | {"rulebook": "4+0a1b2c3d"})
    assert not found and found.rulebook.now == "4+0a1b2c3d"


def test_a_unit_that_was_not_assessed_said_nothing(after):
    found = verdict_changes(None, after)
    assert [one.was for one in found.claims] == [None] and found.level.was is None
    assert headline_word(None) == level_of(None) == ""


def test_two_subjects_of_one_name_are_both_looked_at(after):
    later = deepcopy(after)
    twice = deepcopy(later["safety"]["results"][0])
    later["safety"]["results"].append(twice | {"grade": "another"})
    one, = verdict_changes(after, later).grades
    assert one.was is None and one.now["grade"] == "another" and one.about.endswith(", 2")
