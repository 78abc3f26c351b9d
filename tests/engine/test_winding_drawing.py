"""The winding stack as plain data."""
import json

from teardowns.engine.subjects import Subjects, SubjectTable
from teardowns.engine.winding_drawing import stack_drawing

LAYERS = SubjectTable.of("layer", [
    (0, {"position": 2.0, "kind": "insulation", "tape_layers": 1.0, "state": "recorded"}),
    (0, {"position": 1.0, "kind": "winding", "winding": "primary", "state": "recorded"}),
    (2, {"position": 1.0, "kind": "winding", "winding": "secondary", "state": "not_readable"}),
], evidence_ids=[0, 1, 2])
REFS = ["0:stacklayer/tape", "0:stacklayer/inner", "2:stacklayer/output"]
SUBJECTS = Subjects({"layer": LAYERS})


def said(subject, grade, layers):
    return {"rule": "safety/winding_layers", "subject": subject, "grade": grade, "evidence": [],
            "numbers": {"layers_high": layers}}


def test_layers_stand_outward_with_the_names_of_their_rows():
    drawn = stack_drawing(SUBJECTS, 0, [], REFS)
    assert [one["ref"] for one in drawn["layers"]] == ["stacklayer/inner", "stacklayer/tape"]
    assert [one["tape_layers"] for one in drawn["layers"]] == [None, 1.0]


def test_a_unit_without_layers_is_not_drawn():
    assert stack_drawing(SUBJECTS, 1, [], REFS) is None


def test_the_worst_grade_is_the_weakest_then_the_fewest_layers():
    results = [said("a", "cannot tell", 0.0), said("b", "falls short", 1.0),
               said("c", "falls short", 0.0), said("d", "meets", 3.0)]
    assert stack_drawing(SUBJECTS, 0, results, REFS)["weakest"]["subject"] == "c"
    assert stack_drawing(SUBJECTS, 0, results[::3], REFS)["weakest"]["subject"] == "a"


def test_other_rules_have_no_say_and_nothing_is_no_weakest():
    other = said("a", "falls short", 0.0) | {"rule": "safety/winding_margin"}
    assert stack_drawing(SUBJECTS, 0, [other], REFS)["weakest"] is None


def test_it_can_be_written_as_json():
    assert json.loads(json.dumps(stack_drawing(SUBJECTS, 2, [], REFS), allow_nan=False))
