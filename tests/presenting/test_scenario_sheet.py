"""Scenarios as pages print them, and what a set changes."""
from dataclasses import replace

from teardowns.engine.scenarios import SCENARIOS
from teardowns.presenting.scenario_sheet import changes, scenario_sheets


def sheets():
    return {sheet["id"]: sheet for sheet in scenario_sheets(SCENARIOS)}


def test_each_says_its_level_its_product_and_every_step():
    metal = sheets()["loose_metal"]
    # 1/50 · 1/2 · 1/10 · 1/10 = 1/10 000, which does not exceed itself.
    assert metal["product"].startswith("1/10\u202f000, more than 1/100")
    assert metal["level"] == "high" and metal["levels"] == "serious, high, medium"
    assert len(metal["steps"]) == 4 and "matrix" in metal["matrix"]


def test_each_says_what_triggers_it_and_names_the_rules():
    half = sheets()["pri_sec_distance_half"]
    assert half["when"] == ("falls short between mains side and output, and the distance is as "
                            "found, and the reading is 50 % or more and less than 80 % of the "
                            "requirement under the most lenient assumptions.")
    assert half["rules"] == [("safety-clearance", "Clearance"), ("safety-creepage", "Creepage")]


def test_a_trigger_by_layers_or_by_one_reason_is_said():
    assert sheets()["winding_bare"]["when"] == "falls short, and no layer counts."
    assert sheets()["winding_one_layer"]["when"] == "falls short, and one layer counts."
    assert "opened with the fingers" in sheets()["case_opens"]["when"]
    assert sheets()["touch_temperature"]["when"] == "falls short."


def test_a_changed_step_is_shown_with_the_level_before_and_after():
    metal = next(one for one in SCENARIOS if one.id == "loose_metal")
    steps = (replace(metal.steps[0], p="1/5"), *metal.steps[1:])
    after = [replace(one, steps=steps) if one == metal else one for one in SCENARIOS]
    change, = changes(SCENARIOS, after)
    # 1/5 · 1/2 · 1/10 · 1/10 = 1/1000: by severity 4 serious, as any above 1/10 000.
    assert change["title"] == metal.title and change["levels"] == "high → serious"
    assert change["steps"] == [("it moves into place", "1/50", "1/5")]
    assert changes(SCENARIOS, SCENARIOS) == []
