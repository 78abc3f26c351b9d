"""The hazard section: the answer, the barrier map, what it rests on, and what is missing."""
from types import SimpleNamespace

import pytest

from teardowns.engine.safety_words import UNMEASURED
from teardowns.presenting.insulation_section import NOT_JUDGED, insulation_section
from teardowns.presenting.links import Links
from tests.figures.drawing import of_class, parsed, words

from .sample_safety import result, safety


def path(key="slot", state="recorded", **changed):
    fields = {
        "ref": f"insulationobservation/{key}", "place": "Slot", "state": state, "shape": "",
        "situation": "as_found", "coated": None, "method": "caliper",
        "get_path_display": lambda: "clearance", "get_shape_display": lambda: "rib",
        "get_barrier_display": lambda: "mains side to output",
        "get_situation_display": lambda: "if one solder joint opened"}
    return SimpleNamespace(**fields | changed)


def section(*results, paths=(), **changed):
    rows = {"insulationobservation": list(paths)}
    return insulation_section({"safety": safety(*results, **changed)}, rows, Links(7))


def drawn(*results, paths=()):
    return parsed(section(*results, paths=paths).barrier_map)


def test_nothing_recorded_is_said_plainly_and_draws_no_map():
    found = section(result("touch_current", "cannot tell", None, on="unit", subject="",
                           evidence=[], unit="A"))
    assert found.sentences[0] == UNMEASURED and found.barrier_map == ""


def test_what_nobody_measured_is_listed():
    found = section(result(), result("creepage", value=0.006))
    assert found.missing == ["the layers between the windings",
                             "the way from the mains side to the outside of the case"]


def test_a_report_from_before_safety_was_judged_cannot_tell():
    rows = {"insulationobservation": [path()]}
    found = insulation_section({}, rows, Links(7))
    assert found.sentences == NOT_JUDGED and len(found.ungraded) == 1
    assert insulation_section(None, rows, Links(7)).points is None


def test_paths_stand_below_their_barrier_the_worst_first():
    tree = drawn(result(barrier="L_N", low=0.0015), result(subject="pins"),
                 result(subject="seam", grade="falls short", value=0.002))
    text = words(tree)
    assert text.index("Mains side to output") < text.index("seam") < text.index("pins")
    assert text.index("pins") < text.index("Line to neutral")


@pytest.mark.parametrize(("state", "said"), [
    ("not_looked", "not looked at"), ("not_found", "looked for, not found"),
    ("not_readable", "not readable")])
def test_the_three_ways_of_not_having_a_distance_are_told_apart(state, said):
    tree = drawn(result(grade="cannot tell", value=None), paths=[path(state=state)])
    assert said in words(tree) and of_class(tree, "unm")


def test_a_length_that_could_not_be_used_is_not_called_unmeasured():
    tree = drawn(result(grade="cannot tell", value=None), paths=[path()])
    assert "no usable value" in words(tree)


def test_a_requirement_that_depends_on_assumptions_is_a_range():
    text = words(drawn(result(low=0.005, high=0.0058, value=0.0052, grade="cannot tell")))
    assert "required 5 to 5.8 mm" in text


def test_inside_one_circuit_no_distance_is_required():
    tree = drawn(result(barrier="FUNC", grade="cannot tell", low=0.002, high=0.002))
    assert not of_class(tree, "req") and "required 2" not in words(tree)


def test_shape_situation_and_coating_are_said_with_the_path():
    text = words(drawn(result(), paths=[path(shape="rib", situation="joint_open", coated=True)]))
    assert "clearance, if one solder joint opened, rib, coated, caliper" in text


def test_what_is_no_distance_is_not_on_the_map():
    hot = result("touch_temperature", on="unit", unit="°C", largest=True, hazard="burn")
    wide = result("plug_dimensions", on="dimension")
    assert section(hot, wide).barrier_map == ""


def test_a_recorded_path_that_no_rule_grades_is_named():
    found = section(result(), paths=[path(), path("earth", place="To earth")])
    assert found.ungraded == [("#insulationobservation-earth",
                               "To earth (clearance, mains side to output)")]


def test_each_assumption_says_how_much_rests_on_it():
    found = section(result(assumed=["altitude"]), result(assumed=["altitude"]),
                    assumptions={"altitude": "Used at no more than 2000 m."})
    one, = found.assumptions
    assert (one.name, one.anchor, one.behind) == ("A1", "assumed-altitude", "behind 2 results")
