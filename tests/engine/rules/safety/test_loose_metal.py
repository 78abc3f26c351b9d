"""Metal without a function."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Rule of IEC 62368-1, 4.6: in no position may it bridge; adhesive alone decides nothing.
@pytest.mark.parametrize("known, expected", [
    ({"loose_metal": 1.0, "loose_metal_bridges": 1.0}, "falls short"),
    ({"loose_metal": 1.0, "loose_metal_bridges": 0.0}, "meets"),
    ({"loose_metal": 1.0}, "cannot tell"),
    ({"ballast_secured": 1.0}, "meets"),
    ({"ballast_glued": 1.0}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("loose_metal", **known) == expected


def test_a_washer_that_bridges_nothing_hides_no_glued_weight():
    assert grade_of("loose_metal", loose_metal=1.0, loose_metal_bridges=0.0,
                    ballast_glued=1.0) == "cannot tell"
