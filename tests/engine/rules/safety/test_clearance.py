"""Clearances of recorded paths."""
import pytest

from teardowns.engine import rulebook
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import known_grades_as_grows

PATH = {"barrier": "PRI_SEC", "path": "clearance", "distance_u": 1e-4, "rated_voltage_high": 240.0}


# A test report on a charger, 2021: 7.6 mm at the barrier capacitor, 7.7 mm at the transformer, 3.0
# required; 3.2 mm across the fuse, 1.5 required.
@pytest.mark.parametrize("more, expected", [
    ({"distance": 7.6e-3}, "meets"), ({"distance": 7.7e-3, "site": "transformer"}, "meets"),
    ({"distance": 2.0e-3}, "falls short"), ({"distance": 2.95e-3}, "cannot tell"),
    ({"distance": 3.2e-3, "barrier": "L_N"}, "meets"),
    ({"distance": 6.9e-3, "site": "transformer"}, "meets"),        # core to output, same report
    ({"distance": 1.2e-3, "barrier": "L_N"}, "falls short"),
    ({"distance": 2.0e-3, "barrier": "PRI_ENC"}, "falls short"),
    ({"distance": 2.0e-3, "barrier": "FUNC"}, "cannot tell"),
    ({"distance": 2.0e-3, "coated": 1.0}, "cannot tell"),
    ({}, "cannot tell"), ({"distance": 9e-3, "path": "creepage"}, None),
    ({"distance": 1e-3, "barrier": "PRI_PE", "plug": "europlug"}, "cannot tell"),
    ({"distance": 1.8e-3, "barrier": "PRI_PE", "plug": "schuko"}, "meets"),
])
def test_grades(more, expected):
    assert grade_of("clearance", **PATH | more) == expected


# By hand: 3.4 mm with an attached ball of 0.6 mm leaves 2.8; 1.8 + 1.6 mm beside floating metal
# make 3.4; solder mask over 2 mm changes nothing.
@pytest.mark.parametrize("more, expected", [
    ({"distance": 3.4e-3, "particle": 0.6e-3, "particle_loose": 0.0}, "falls short"),
    ({"distance": 3.4e-3, "particle": 0.6e-3, "particle_loose": 1.0}, "cannot tell"),
    ({"distance": 3.4e-3, "shape": "floating", "gap_1": 1.8e-3, "gap_2": 1.6e-3}, "meets"),
    ({"distance": 2.4e-3, "shape": "floating", "gap_1": 1.8e-3, "gap_2": 0.6e-3}, "falls short"),
    ({"distance": 3.4e-3, "shape": "floating"}, "cannot tell"),
])
def test_dirt_and_floating_metal(more, expected):
    assert grade_of("clearance", **PATH | more) == expected


def test_how_far_it_falls_short_is_taken_leniently():
    # A loose ball of 1.5 mm may lie elsewhere: 2.8 mm of 3.0, not 1.3; attached, 1.3 mm are left.
    path = PATH | {"distance": 2.8e-3, "particle": 1.5e-3}
    loose, attached = (asked("clearance", **path, particle_loose=is_loose) for is_loose in (1., 0.))
    assert loose.grade[0] == attached.grade[0] == -1
    assert (loose.value[0], attached.value[0]) == pytest.approx((2.8e-3, 1.3e-3))


def test_an_unread_plate_leaves_both_rows():
    # 150 V: 2.54 mm; 250 V: 3.0 mm.
    unread = PATH | {"rated_voltage_high": float("nan")}
    found = asked("clearance", **unread, distance=2.8e-3)
    assert (found.low[0], found.high[0]) == pytest.approx((2.54e-3, 3.0e-3))
    assert found.assumed["mains_voltage"][0] and found.grade[0] == 0
    by_plug = asked("clearance", **unread, distance=3.2e-3, plug="bs1363")
    assert by_plug.grade[0] == 1 and by_plug.assumed["plug_mains"][0]


def test_what_was_assumed_is_named():
    found = asked("clearance", **PATH, distance=5e-3)
    named = {name for name, taken in found.assumed.items() if taken[0]}
    assert {"overvoltage_category", "pollution_degree", "altitude", "working_peak"} <= named


@pytest.mark.parametrize("longer", ["distance", "gap_1"])
def test_a_longer_way_is_never_worse(longer):
    before, after = known_grades_as_grows("clearance", longer)
    assert (after >= before).all()


@pytest.mark.parametrize("more", ["rated_voltage_high", "overvoltage_category", "rated_altitude",
                                  "working_voltage_peak", "pollution_degree", "particle"])
def test_more_voltage_altitude_or_dirt_is_never_better(more):
    before, after = known_grades_as_grows("clearance", more, 2.0)
    assert (after <= before).all()


# A test report on a charger, IEC 60950-1: 4.0 mm at 420 V peak.
@pytest.mark.parametrize("distance, named, noted", [
    (3.5e-3, 1.0, True), (3.5e-3, 0.0, False), (3.5e-3, float("nan"), False),
    (4.2e-3, 1.0, False), (2.0e-3, 1.0, False)])
def test_a_label_of_the_withdrawn_standard_is_noted_and_moves_no_grade(distance, named, noted):
    found = asked("clearance", **PATH, distance=distance, claims_60950=named)
    assert ("withdrawn" in rulebook.load()["safety/clearance"].reasons[found.why[0]]) == noted
    assert found.grade[0] == asked("clearance", **PATH, distance=distance).grade[0]
