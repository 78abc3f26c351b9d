"""Strain relief of the mains cord."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# IEC 62368-1, G.7: a knot or none falls short, what was not pulled is not decided.
@pytest.mark.parametrize("known, expected", [
    ({"mains_cord_relief": 0.0}, "falls short"),
    ({"mains_cord_relief": 1.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("mains_cord", **known) == expected
