"""Scenarios: attributed data, each level worked out by hand from its steps."""
import json
from dataclasses import replace
from fractions import Fraction

import pytest

from teardowns.engine import rulebook
from teardowns.engine.risk import risk
from teardowns.engine.scenarios import (
    CLEARANCE_JOINT,
    CLEARANCE_MOVED,
    SCENARIOS,
    applies,
    checked_probability,
    read_scenarios,
    written,
)

BY_ID = {scenario.id: scenario for scenario in SCENARIOS}


# By hand, product of the steps: 1/20 · 1/2 · 1/10 · 1/10 = 1/4000 and so on; levels by the matrix.
@pytest.mark.parametrize("name, p, levels", [
    ("pri_sec_distance_below_half", "1/4000", "S S H"), ("pri_sec_distance_half", "1/20000",
                                                          "S H M"),
    ("pri_sec_distance_most", "1/200000", "H M L"), ("pri_enc_distance_half", "1/20000", "S H M"),
    ("winding_bare", "1/4000", "S S H"), ("winding_one_layer", "1/200000", "H M L"),
    ("barrier_capacitor", "1/20000", "S H M"), ("case_opens", "1/400", "S S S"),
    ("finger_access", "1/40", "S S S"), ("pri_enc_distance_below_half", "1/4000", "S S H"),
    ("loose_metal", "1/10000", "S H M"), ("no_protection", "1/1000000", "M L L"),
    # 1/50 · 1/2 · 1/10 · 1/10, and 1/100 of it.
    ("pri_sec_moved_below_half", "1/10000", "S H M"), ("pri_enc_moved_more", "1/1000000", "M L L"),
    ("touch_temperature", "1/20", "M M L"), ("plug_not_discharged", "1/20", "M M L"),
])
def test_the_level_of_each_scenario(name, p, levels):
    found = risk(BY_ID[name].severity, [step.p for step in BY_ID[name].steps])
    assert found.p == Fraction(p)
    assert " ".join(level[0].upper() for level in found.levels) == levels


def test_every_step_says_who_set_it_and_why():
    steps = [step for scenario in SCENARIOS for step in scenario.steps]
    assert all(step.by and step.why and step.text for step in steps)


def test_every_rule_that_a_scenario_waits_for_is_there():
    ids = {rule.id for rule in rulebook.load().safety}
    assert {rule for scenario in SCENARIOS for rule in scenario.rules} <= ids


def test_a_stored_set_changes_steps_alone():
    rows = written(SCENARIOS)
    rows[0]["title"], rows[0]["share"], rows[0]["steps"][0]["p"] = "other", None, "1/7"
    first, *others = read_scenarios(rows)
    assert (first.title, first.share) == (SCENARIOS[0].title, SCENARIOS[0].share)
    assert first.steps[0].p == "1/7" and tuple(others) == SCENARIOS[1:]


def test_what_a_stored_set_does_not_know_stays_the_rulebooks_own():
    rows = written(SCENARIOS)[1:]
    rows[0]["steps"] = rows[0]["steps"][1:]
    assert read_scenarios(rows) == SCENARIOS


def test_a_stored_step_that_is_no_probability_is_named():
    rows = written(SCENARIOS)
    rows[0]["steps"][0]["p"] = "2"
    with pytest.raises(ValueError, match="breaks down"):
        read_scenarios(rows)


def test_json_carries_them_and_brings_them_back():
    assert read_scenarios(json.loads(json.dumps(written(SCENARIOS)))) == SCENARIOS


@pytest.mark.parametrize("text", [
    "", "0", "-1/2", "3/2", "1/0", "often", "nan", "0,05", "1e-999999999"])
def test_what_is_no_probability_is_refused_by_name(text):
    with pytest.raises(ValueError, match="it moves into place.*1/20"):
        checked_probability(text, "it moves into place")


def test_a_fraction_may_be_written_in_several_ways():
    assert checked_probability(" 1 / 20 ", "") == checked_probability("0.05", "") == Fraction(1, 20)


def short(rule, ratio=None, barrier="PRI_SEC", **more):
    return {"rule": rule, "grade": "falls short", "barrier": barrier, "ratio": ratio,
            "value": ratio, "u": 0.0, "low": 1.0, "why": 0, "numbers": {}, **more}


def triggered(result):
    return [scenario.id for scenario in SCENARIOS if applies(scenario, result)]


@pytest.mark.parametrize("ratio, name", [
    (0.49, "below_half"), (0.5, "half"), (0.79, "half"), (0.8, "most"), (0.99, "most")])
def test_a_distance_triggers_by_its_share_of_the_requirement(ratio, name):
    assert triggered(short("safety/clearance", ratio)) == [f"pri_sec_distance_{name}"]
    assert triggered(short("safety/creepage", ratio, "PRI_ENC")) == [f"pri_enc_distance_{name}"]


def test_a_distance_is_below_half_only_beyond_its_uncertainty():
    # 0.45 ± 0.1 of the requirement may be 0.55.
    assert triggered(short("safety/clearance", 0.45, u=0.1)) == ["pri_sec_distance_half"]
    assert triggered(short("safety/clearance", 0.45, u=0.04)) == ["pri_sec_distance_below_half"]


def test_80_percent_are_80_percent_though_a_computer_finds_less():
    assert 2.4e-3 / 3e-3 < 0.8
    assert triggered(short("safety/clearance", 2.4e-3 / 3e-3)) == ["pri_sec_distance_most"]


@pytest.mark.parametrize("why", [CLEARANCE_JOINT, CLEARANCE_MOVED])
@pytest.mark.parametrize("ratio, name", [(0.0, "below_half"), (0.6, "more"), (0.9, "more")])
def test_what_only_a_moved_part_would_make_has_to_move_first(why, ratio, name):
    assert triggered(short("safety/clearance", ratio, why=why)) == [f"pri_sec_moved_{name}"]


def test_what_does_not_fall_short_triggers_nothing():
    result = short("safety/clearance", 0.3)
    assert not triggered(result | {"grade": "meets"})
    assert not triggered(result | {"grade": "cannot tell"})
    assert not triggered(result | {"barrier": "L_N"})


@pytest.mark.parametrize("layers, name", [(0.0, "winding_bare"), (1.0, "winding_one_layer")])
def test_windings_trigger_by_the_layers_that_are_left(layers, name):
    result = short("safety/winding_layers", numbers={"layers_low": layers})
    assert triggered(result) == [name]


@pytest.mark.parametrize("rule, words, name", [
    ("safety/barrier_capacitor", "bears none of the classes that this place asks for (one Y1",
     "barrier_capacitor"),
    ("safety/case_opening", "opened with the fingers", "case_opens")])
def test_where_a_rule_knows_several_shortfalls_one_alone_triggers(rule, words, name):
    reasons = rulebook.load()[rule].reasons
    found = {why: triggered(short(rule, barrier="", why=why)) for why in range(len(reasons))}
    assert [why for why in found if found[why]] == [
        why for why, reason in enumerate(reasons) if words in reason]
    assert [name] in found.values()


def test_the_live_pins_of_a_plug_are_no_case_that_opens():
    assert not triggered(short("safety/plug_live_parts", barrier="", why=3))


def test_a_changed_set_stands_in_the_version_of_the_rulebook():
    book = rulebook.load()
    changed = book.with_scenarios([replace(SCENARIOS[0], title="other")], "risk2-0a1b2c3d")
    assert changed.version == f"{book.version}+risk2-0a1b2c3d"
    assert changed.scenarios[0].title == "other"
