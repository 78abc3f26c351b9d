"""Thickness of one solid layer."""
import pytest

from tests.engine.rules.safety.asked import grade_of
from tests.engine.rules.safety.monotone import known_grades_as_grows

PATH = {"barrier": "PRI_ENC", "path": "insulation_thickness", "distance_u": 5e-5}


# Test report, 2021: case of at least 1.5 mm, 0.4 required. By hand: 0.3 ± 0.05 lies below 0.4.
# IEC 61558-1, table 22: 1.0 mm at up to 300 V. An application note of a switcher maker sleeves lead
# exits with a wall of 0.41 mm.
@pytest.mark.parametrize("more, expected", [
    ({"distance": 1.5e-3}, "meets"), ({"distance": 0.3e-3}, "falls short"),
    ({"distance": 0.41e-3, "distance_u": 5e-6, "barrier": "PRI_SEC"}, "meets"),
    ({"distance": 0.38e-3}, "cannot tell"), ({}, "cannot tell"),
    ({"distance": 0.2e-3, "barrier": "L_N"}, "cannot tell"),
    ({"distance": 0.6e-3, "claims_61558": 1.0, "rated_voltage_high": 240.0}, "cannot tell"),
    ({"distance": 1.2e-3, "claims_61558": 1.0, "rated_voltage_high": 240.0}, "meets"),
    ({"distance": 1.5e-3, "path": "clearance"}, None),
])
def test_grades(more, expected):
    assert grade_of("solid_thickness", **PATH | more) == expected


def test_a_thicker_wall_is_never_worse_and_higher_mains_are_never_better():
    before, after = known_grades_as_grows("solid_thickness", "distance")
    assert (after >= before).all()
    before, after = known_grades_as_grows("solid_thickness", "rated_voltage_high")
    assert (after <= before).all()
