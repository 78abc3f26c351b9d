"""Capacitors across the mains bear a class."""
import pytest

from tests.engine.rules.safety.asked import grade_of

PART = {"role": "x_capacitor", "state": "recorded"}


# IEC 62368-1, G.11.3: X1 or X2, or any Y.
@pytest.mark.parametrize("more, expected", [
    ({"safety_class": "X2"}, "meets"), ({"safety_class": "Y2"}, "meets"),
    ({"marking": "104 400V"}, "falls short"), ({}, "cannot tell"),
    ({"state": "not_readable", "safety_class": "X2"}, "cannot tell"),
    ({"state": "not_found"}, None), ({"role": "fuse"}, None),
    ({"role": "barrier_capacitor", "bridges": "L_N", "safety_class": "Y2"}, "meets"),
    ({"bridges": "PRI_SEC", "safety_class": "X2"}, None), ({"state": "not_looked"}, None),
])
def test_grades(more, expected):
    assert grade_of("mains_capacitor", **PART | more) == expected
