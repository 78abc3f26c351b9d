"""Mains parts in reach of a finger."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# IEC 62368-1, 5.3.2.2 a), clause list of a test report, 2021.
@pytest.mark.parametrize("known, expected", [
    ({"test_finger_reaches_mains": 1.0}, "falls short"),
    ({"test_finger_reaches_mains": 0.0}, "meets"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("finger_access", **known) == expected
