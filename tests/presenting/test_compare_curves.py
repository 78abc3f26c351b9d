"""Load curves of several units in one drawing."""
from teardowns.models import Recording
from teardowns.presenting.compare_curves import compared_curves_shown

from .compared import columns, compared

POINTS = [(0.0, 5.1), (1.0, 5.0), (2.0, 4.9)]


def log(key, volts=5.0):
    return Recording(unit_id=7, key=key, kind="load_sweep", conditions={"set_voltage": volts})


def shown(*found):
    return compared_curves_shown(
        columns(*(compared(pk=pk, title=f"Unit {pk}") for pk, _ in enumerate(found, 1))), found)


def test_curves_are_named_by_their_unit_and_numbered_where_it_has_several():
    curves = shown([(log("a"), POINTS)], [(log("b"), POINTS), (log("c"), POINTS)])
    assert [name for name, _, _ in curves.legend] == ["A", "B1", "B2"]
    assert curves.legend[1][1].startswith("Unit 2, 5.00\u202fV")


def test_lines_differ_by_more_than_colour():
    drawing = shown([(log("a"), POINTS)], [(log("b"), POINTS)]).drawing
    assert drawing.count('stroke="currentColor"') > 2 and 'stroke-dasharray="7 4"' in drawing


def test_units_without_a_curve_are_named():
    assert shown([(log("a"), POINTS)], [], []).without == "B, C"


def test_without_any_curve_there_is_no_drawing():
    assert shown([], []) is None


def test_the_table_gives_the_same_by_the_same_names():
    assert "B: Unit 2" in shown([(log("a"), POINTS)], [(log("b"), POINTS)]).table
