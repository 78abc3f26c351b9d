"""Capacitors across the barrier, by their class marks."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse

PART = {"role": "barrier_capacitor", "state": "recorded", "count": 1.0, "rated_voltage_high": 240.0}


# A certifier's answers: one Y1 at 240 V; Y2 to protective earth. A product-safety list: two Y2 in
# series, no X2 to the output.
@pytest.mark.parametrize("more, expected", [
    ({"safety_class": "Y1"}, "meets"), ({"safety_class": "X1Y1"}, "meets"),
    ({"safety_class": "Y2", "count": 2.0, "in_series": 1.0}, "meets"),
    # Of two pieces without a tick nobody said that they lie side by side, which nobody builds.
    ({"safety_class": "Y2", "count": 2.0, "in_series": 0.0}, "cannot tell"),
    ({"safety_class": "Y2", "count": 2.0}, "cannot tell"),
    # The filter of a unit with an earth has its Y2 to it.
    ({"safety_class": "Y2", "plug": "schuko"}, "cannot tell"),
    ({"safety_class": "Y2", "plug": "schuko", "bridges": "PRI_SEC"}, "falls short"),
    ({"safety_class": "Y1", "part_voltage": 25.0}, "cannot tell"),
    ({"safety_class": "Y2"}, "falls short"), ({"safety_class": "X1/Y2"}, "falls short"),
    ({"safety_class": "X2"}, "falls short"), ({"marking": "102 1kV"}, "falls short"),
    ({"marking": "Y1 222M 400V~"}, "meets"), ({}, "cannot tell"),
    ({"state": "not_readable"}, "cannot tell"), ({"state": "not_found"}, None),
    ({"safety_class": "Y2", "bridges": "PRI_PE"}, "meets"),
    ({"safety_class": "X2", "bridges": "PRI_PE"}, "falls short"),
    ({"safety_class": "Y1", "part_voltage": 250.0}, "meets"),
    ({"safety_class": "Y1", "part_voltage": 125.0}, "falls short"),
    ({"safety_class": "X2", "role": "x_capacitor"}, None),
    ({"safety_class": "X2", "role": "x_capacitor", "bridges": "PRI_SEC"}, "falls short"),
    ({"safety_class": "Y1", "bridges": "L_N"}, None), ({"state": "not_looked"}, None),
    ({"safety_class": "Y1", "bridges": "PRI_PE"}, "meets"),
    ({"safety_class": "Y4", "bridges": "PRI_PE"}, "cannot tell"),
    # One piece that is said to lie in series is one of several that were entered apart.
    ({"safety_class": "Y2", "in_series": 1.0}, "cannot tell"),
    ({"safety_class": "Y2", "barrier_y2_pieces": 2.0}, "cannot tell"),
    ({"safety_class": "Y2", "barrier_y2_pieces": 1.0}, "falls short"),
    ({"safety_class": "Y2", "count": float("nan")}, "cannot tell"),
    ({"safety_class": "Y2", "count": float("nan"), "in_series": 0.0}, "falls short"),
    ({"safety_class": "Y1", "part_voltage": 125.0, "rated_voltage_high": float("nan")},
     "cannot tell"),
])
def test_grades(more, expected):
    assert grade_of("barrier_capacitor", **PART | more) == expected


def test_two_y4_are_known_from_memory_only():
    found = asked("barrier_capacitor", **PART | {"rated_voltage_high": 120.0, "count": 2.0},
                  in_series=1.0, safety_class="Y4")
    assert found.grade[0] == 1 and found.confidence[0] == 2
    assert grade_of("barrier_capacitor", **PART | {"count": 2.0}, in_series=1.0,
                    safety_class="Y4") == "falls short"


def test_a_higher_rating_is_never_worse_and_higher_mains_are_never_better():
    # Of a rating that a capacitor of a class can have at all.
    more_is_never_worse("barrier_capacitor", "part_voltage", 10.0, 100.0)
    more_is_never_better("barrier_capacitor", "rated_voltage_high", 3.0)
