"""Creepages of recorded paths."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import known_grades_as_grows

MM = 1e-3
PATH = {"barrier": "PRI_SEC", "path": "creepage", "distance_u": 1e-4, "rated_voltage_high": 240.0}


# Test reports on chargers: 7.6 mm at the barrier capacitor; core to output 8.0 mm, 5.8 required at
# 281 V; optocoupler 6.5 mm and 10.5 mm, 5.0 required; fuse tracks 2.6 mm, 2.5 required.
@pytest.mark.parametrize("more, expected", [
    ({"distance": 7.6 * MM}, "meets"),
    ({"distance": 8.0 * MM, "site": "transformer", "working_voltage_rms": 281.0}, "meets"),
    ({"distance": 6.5 * MM, "site": "optocoupler"}, "meets"),
    ({"distance": 10.5 * MM, "site": "optocoupler"}, "meets"),
    ({"distance": 4.8 * MM, "site": "optocoupler"}, "falls short"),     # pads reduced, by hand
    ({"distance": 6.9 * MM, "site": "transformer"}, "meets"),
    ({"distance": 2.65 * MM, "barrier": "L_N"}, "meets"),
    ({"distance": 5.2 * MM, "site": "transformer"}, "cannot tell"),     # 5.0 to 5.8 mm
    ({"distance": 3.4 * MM}, "falls short"),
    ({"distance": 4.0 * MM, "material_group": "I"}, "meets"),           # 3.0 mm: the clearance
    ({"distance": 6.0 * MM, "contaminated": 1.0}, "cannot tell"),       # 8.0 mm at degree 3
    ({"distance": 6.0 * MM, "pollution_degree": 3.0}, "falls short"),
    ({"distance": 6.0 * MM, "coated": 1.0}, "cannot tell"),
    ({}, "cannot tell"),
])
def test_grades(more, expected):
    assert grade_of("creepage", **PATH | more) == expected


def test_a_measured_voltage_at_the_transformer_counts_at_both_ends():
    # 281 V: 2.81 → 2.9, twice 5.8; a test report prints 5.8 mm.
    found = asked("creepage", **PATH, distance=6e-3, site="transformer", working_voltage_rms=281.0)
    assert (found.low[0], found.high[0]) == pytest.approx((5.8e-3, 5.8e-3))


SLOT = {"distance": 6 * MM, "shape": "slot", "width": 1 * MM, "from_x": -3 * MM,
        "from_y": 5 * MM, "to_x": 3 * MM, "to_y": 5 * MM, "start": 0.0, "end": 10 * MM}


# By hand: round the end 12.18 mm; a slot of 0.8 mm is bridged, 6.0 mm; without its ends nothing.
@pytest.mark.parametrize("more, length, expected", [
    ({}, 12.18, "meets"), ({"width": 0.8 * MM}, 6.0, "meets"),
    ({"start": float("nan"), "end": float("nan")}, None, "cannot tell"),
])
def test_a_slot_is_walked_round(more, length, expected):
    found = asked("creepage", **PATH | SLOT | more)
    assert grade_of("creepage", **PATH | SLOT | more) == expected
    assert length is None or found.value[0] == pytest.approx(length * MM, abs=5e-6)


def test_a_narrow_groove_is_crossed():
    groove = PATH | {"shape": "groove", "distance": 6 * MM, "straight": 3.5 * MM}
    assert grade_of("creepage", **groove, width=1.2 * MM) == "meets"
    assert grade_of("creepage", **groove, width=0.5 * MM) == "falls short"
    assert grade_of("creepage", **groove) == "cannot tell"


def test_a_groove_that_dirt_may_bridge_falls_short_by_its_contour():
    # 1.2 mm wide counts at degree 2 and not at degree 3: 4.5 mm of 5.0, not 2.0.
    found = asked("creepage", **PATH, shape="groove", distance=4.5 * MM, straight=2.0 * MM,
                  width=1.2 * MM, contaminated=1.0)
    assert found.grade[0] == -1 and found.value[0] == pytest.approx(4.5 * MM)


def test_metal_along_the_surface():
    # 1.8 + 1.6 mm along the surface: below 5.0 mm.
    path = PATH | {"shape": "floating", "distance": 3.4 * MM, "gap_1": 1.8 * MM, "gap_2": 1.6 * MM}
    assert grade_of("creepage", **path) == "falls short"


@pytest.mark.parametrize("longer", ["distance", "straight", "gap_1"])
def test_a_longer_way_is_never_worse(longer):
    before, after = known_grades_as_grows("creepage", longer)
    assert (after >= before).all()


@pytest.mark.parametrize("more", ["rated_voltage_high", "overvoltage_category", "rated_altitude",
                                  "working_voltage_rms", "working_voltage_peak",
                                  "pollution_degree", "particle"])
def test_more_voltage_altitude_or_dirt_is_never_better(more):
    before, after = known_grades_as_grows("creepage", more, 2.0)
    assert (after <= before).all()
