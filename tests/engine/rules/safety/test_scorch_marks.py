"""Scorched places."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Rule: damage that was seen is said; none says nothing.
@pytest.mark.parametrize("known, expected", [
    ({"scorch_marks": 1.0}, "falls short"),
    ({"scorch_marks": 0.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("scorch_marks", **known) == expected
