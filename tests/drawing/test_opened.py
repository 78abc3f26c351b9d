from teardowns.drawing.opened import opened_cases

from .units import document, drawn

PART = {"key": "c", "role": "bulk_capacitor", "designator": "C1", "nominal": 1e-5}


def opened(*measurements, **lists):
    (picture,) = opened_cases(document(components=[PART], measurements=list(measurements), **lists))
    return picture


def test_ballast_is_marked_in_the_other_half():
    (mark,) = [m for m in drawn("26")["opened"].marks if m.shows == "component/ballast"]
    assert mark.points[0][0] > 900 and "glued into the lid" in mark.label


def test_what_was_looked_for_and_not_found_is_told_from_what_was_found():
    found = opened({"key": "a", "quantity": "scorch_marks", "value": 1.0})
    missing = opened({"key": "a", "quantity": "scorch_marks", "state": "not_found"})
    assert "molten: yes." in found.alt and "molten: looked for, not found." in missing.alt


def test_what_nobody_looked_at_is_not_mentioned():
    assert "molten" not in opened({"key": "a", "quantity": "scorch_marks",
                                   "state": "not_looked"}).alt


def test_the_wall_is_marked_where_its_thickness_was_taken():
    picture = opened({"key": "w", "quantity": "case_wall_thickness", "value": 0.002})
    (mark,) = picture.marks
    assert mark.shows == "measurement/w" and mark.label == "case wall 2.0 mm"


def test_a_unit_that_was_not_opened_has_no_picture_of_its_inside():
    assert opened_cases(document()) == []
