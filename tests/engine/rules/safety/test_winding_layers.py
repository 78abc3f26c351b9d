"""Layers between neighbours in the transformer."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from tests.engine.rules.safety.any_inputs import random_inputs, run
from tests.engine.rules.safety.asked import asked, grade_of

RULE = next(rule for rule in rulebook.load().safety if rule.id == "safety/winding_layers")
NAN = float("nan")
TRACED = {"inner": "primary", "outer": "secondary", "insulated_wire": "none", "traced": 1.0,
          "solid_thickness": 0.0, "condition_noted": 1.0, "rated_voltage_high": 240.0,
          "overvoltage_category": 2.0}


def layers(low, high=None, **more):
    return TRACED | {"layers_low": low, "layers_high": low if high is None else high} | more


# IEC 62368-1:2018, 5.4.4.6 and IEC 60950-1, 2.10.5.6, 2.10.5.7: three layers, any two withstand;
# two layers, each withstands (one layer of tape did at 4000 V d.c. in a test report on a charger,
# 2021); one layer and enamel: no reinforced insulation. Application note on transformer safety:
# enamel counts as nothing.
@pytest.mark.parametrize("subject, expected", [
    (layers(3.0), "meets"),
    (layers(2.0, layer_withstood=4000.0), "meets"),
    (layers(2.0, layer_withstood=3999.0), "cannot tell"),
    (layers(2.0), "cannot tell"),
    (layers(1.0), "falls short"),
    (layers(0.0), "falls short"),
    (layers(1.0, solid_thickness=0.7e-3), "meets"),          # 0.7 − 0.1 reaches 0.4 mm
    (layers(1.0, solid_thickness=0.45e-3), "cannot tell"),   # 0.45 − 0.1 does not, 0.45 + 0.1 does
    (layers(1.0, solid_thickness=0.2e-3), "falls short"),    # 0.2 + 0.1 lies below 0.4 mm
    (layers(1.0, solid_thickness=NAN), "cannot tell"),
])
def test_what_the_count_is_worth(subject, expected):
    assert grade_of("winding_layers", **subject) == expected


# IEC 62368-1:2018, annex J: certified wire counts as reinforced; a test report on a charger of
# IEC 60950-1 prints "TIW used" where 0.4 mm is required.
@pytest.mark.parametrize("wire, expected", [
    ("documented", "meets"), ("apparent", "cannot tell"), ("", "cannot tell"),
    ("none", "falls short")])
def test_what_the_wire_is_worth(wire, expected):
    assert grade_of("winding_layers", **layers(0.0, insulated_wire=wire)) == expected


# A damaged layer counts at the lenient end alone: 1 and 0 fall short both, 2 and 0 do not decide.
@pytest.mark.parametrize("low, high, expected", [
    (1.0, 0.0, "falls short"), (2.0, 0.0, "cannot tell"), (4.0, 3.0, "meets"),
    (4.0, 2.0, "cannot tell"), (NAN, 0.0, "cannot tell"), (NAN, 3.0, "meets")])
def test_it_falls_short_by_the_most_and_meets_by_the_least(low, high, expected):
    assert grade_of("winding_layers", **layers(low, high)) == expected


def test_nothing_falls_short_that_was_not_traced_whole():
    assert grade_of("winding_layers", **layers(0.0, traced=0.0)) == "cannot tell"


# IEC 62368-1:2018, table 27: 5000 V above 250 V mains; table 25: 6000 V at category III and 240 V.
@pytest.mark.parametrize("more", [
    {"rated_voltage_high": 277.0}, {"overvoltage_category": 3.0}])
def test_higher_mains_ask_more_of_each_of_two_layers(more):
    assert grade_of("winding_layers", **layers(2.0, layer_withstood=4000.0) | more
                    ) == "cannot tell"


def test_the_core_counts_as_mains_side_unless_it_is_connected_to_nothing():
    beside = layers(1.0, inner="core", core_floating=NAN)
    assert grade_of("winding_layers", **beside) == "falls short"
    assert asked("winding_layers", **beside).assumed["core_primary"].tolist() == [True]
    assert grade_of("winding_layers", **beside | {"core_floating": 1.0}) == "cannot tell"


def test_a_pass_names_that_nobody_noted_the_condition():
    assert not asked("winding_layers", **layers(3.0)).assumed["intact_layers"].any()
    unsaid = asked("winding_layers", **layers(3.0, condition_noted=NAN))
    assert unsaid.assumed["intact_layers"].all()


def test_a_documented_wire_is_beside_no_figure_of_layers():
    done = asked("winding_layers", **layers(0.0, insulated_wire="documented"))
    assert np.isnan(done.low).all() and np.isnan(done.high).all()


@pytest.mark.parametrize("name, more", [
    ("solid_thickness", 2e-4), ("layer_withstood", 500.0), ("layers_high", 1.0)])
def test_more_insulation_is_never_worse(name, more):
    inputs = random_inputs(RULE, np.random.default_rng(11), 4000)
    better = inputs | {name: inputs[name] + more}
    if name == "layers_high":
        better["layers_low"] = inputs["layers_low"] + more
    assert (run(RULE, better).grade >= run(RULE, inputs).grade).all()


def test_higher_mains_are_never_better():
    inputs = random_inputs(RULE, np.random.default_rng(12), 4000)
    higher = inputs | {"rated_voltage_high": inputs["rated_voltage_high"] * 1.3}
    assert (run(RULE, higher).grade <= run(RULE, inputs).grade).all()
