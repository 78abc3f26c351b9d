"""What a rule was given at one subject, and what would settle what it cannot tell."""
import pytest

from teardowns.engine import pipeline, rulebook
from teardowns.engine.safety_inputs import inputs_of, value_at, what_settles
from teardowns.engine.safety_words import HINT_ASSUMED, HINT_READING
from teardowns.exchange.tables import engine_tables
from tests.exchange.small import small

RULES = rulebook.load()


def assessed(**lists):
    tables = engine_tables([small(**lists)])
    return tables, pipeline.assess(tables.evidence, tables.claims, RULES, tables.ports,
                                   tables.subjects)


def path(value=0.0034, u=0.0001, **changed):
    return {"key": "slot", "path": "clearance", "place": "Slot", "value": value,
            "uncertainty": u, "uncertainty_kind": "interval"} | changed


def inputs(rule_id, **lists):
    tables, assessment = assessed(**lists)
    return {one["name"]: one for one in inputs_of(assessment, 0, RULES[rule_id], 0, tables.refs)}


def test_an_input_has_its_value_with_its_uncertainty_and_no_row_of_its_own_for_that():
    found = inputs("safety/clearance", insulation=[path()])
    assert found["distance"]["value"] == 0.0034 and found["distance"]["u"] == 0.0001
    assert "distance_u" not in found


def test_what_nobody_recorded_is_not_known_and_no_zero():
    found = inputs("safety/clearance", insulation=[path()])
    for name in ("pollution_degree", "working_voltage_peak", "site", "plug"):
        assert not found[name]["known"]
    assert found["pollution_degree"]["value"] is None and found["site"]["value"] == ""


def test_a_quantity_of_the_unit_names_its_evidence():
    found = inputs("safety/touch_current", measurements=[
        {"key": "leak", "quantity": "touch_current", "value": 1e-4}])
    assert found["touch_current"]["evidence"] == ["measurement/leak"]


def test_an_uncertainty_is_the_expanded_one():
    _, assessment = assessed(measurements=[
        {"key": "leak", "quantity": "touch_current", "value": 1e-4, "uncertainty": 2e-6,
         "uncertainty_kind": "standard"}])
    # two standard uncertainties
    assert value_at(assessment, 0, RULES["safety/touch_current"], "touch_current_u", 0) == (
        pytest.approx(4e-6))


def settles(rule_id, **lists):
    _, assessment = assessed(**lists)
    return what_settles(assessment, 0, RULES[rule_id], 0)


def test_the_rules_own_question_comes_first():
    asks = set(RULES["safety/touch_current"].asks.values())
    assert set(settles("safety/touch_current")) == asks


def test_a_reading_too_near_to_its_figure_wants_a_better_reading():
    # plate 240 V: 3.0 mm at both ends (test report on a charger, 2021, p. 43)
    plate = [{"kind": "input", "text": "240V~", "voltage_low": 240.0, "voltage_high": 240.0}]
    assert settles("safety/clearance", claims=plate, insulation=[path(0.003)]) == [HINT_READING]


def test_a_requirement_that_hangs_on_an_assumption_wants_that_read():
    # plate and plug not read: 2.54 mm at 150 V, 3.0 mm at 300 V mains
    assert settles("safety/clearance", insulation=[path(0.0027)]) == [HINT_ASSUMED]


def test_a_path_without_a_length_names_what_is_missing():
    unread = {"key": "slot", "path": "clearance", "place": "Slot", "state": "not_looked"}
    assert settles("safety/clearance", insulation=[unread]) == ["Not recorded: Distance."]
