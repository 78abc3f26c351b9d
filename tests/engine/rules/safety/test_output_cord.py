"""Output cord."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Rule of IEC 62368-1, 4.6: a loose conductor reaches no mains part.
@pytest.mark.parametrize("known, expected", [
    ({"output_wire_reaches_mains": 1.0}, "falls short"),
    ({"output_wire_reaches_mains": 0.0}, "meets"),
    ({"output_cord_relief": 0.0}, "cannot tell"),
    ({"output_cord_relief": 1.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("output_cord", **known) == expected
