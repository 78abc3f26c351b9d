"""Flammability mark of the case."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# IEC 62368-1, 6.4: a mark is a claim; a resin without one decides nothing.
@pytest.mark.parametrize("known, expected", [
    ({"case_flame_retardant": 1.0}, "meets"),
    ({"case_plain_resin": 1.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("case_flammability", **known) == expected
