"""How the case is closed."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Rule of IEC 62368-1, 4.4.3: no live part in reach without a tool; the drop is from memory.
@pytest.mark.parametrize("known, expected", [
    ({"case_opens_by_hand": 1.0}, "falls short"),
    ({"case_welded": 1.0}, "meets"),
    ({"case_clipped": 1.0}, "cannot tell"),
    ({"case_opened_by_drop": 1.0}, "falls short"),
    ({"case_welded": 1.0, "case_clipped": 1.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("case_opening", **known) == expected
