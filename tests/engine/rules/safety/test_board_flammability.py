"""Flammability mark of the board."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Summary rows of a test report: V-1 above 100 W; unmarked is not decided.
@pytest.mark.parametrize("known, expected", [
    ({"board_flame_class": 1.0}, "meets"),
    ({"board_flame_class": 0.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("board_flammability", **known) == expected
