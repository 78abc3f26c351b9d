"""Reported test voltages."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse

UNIT = {"rated_voltage_high": 240.0}


# 4000 V d.c. for reinforced insulation at 240 V: test report on a charger, 2021.
@pytest.mark.parametrize("more, expected", [
    ({"electric_strength_withstood": 4000.0, "electric_strength_duration": 60.0}, "meets"),
    ({"electric_strength_withstood": 4000.0, "electric_strength_duration": 5.0}, "cannot tell"),
    ({"electric_strength_withstood": 3000.0, "electric_strength_duration": 60.0}, "cannot tell"),
    ({"electric_strength_withstood": 4000.0}, "cannot tell"),
    ({"breakdown_voltage": 3200.0}, "falls short"), ({"breakdown_voltage": 4500.0}, "cannot tell"),
    ({}, None),
])
def test_grades(more, expected):
    assert grade_of("electric_strength", **UNIT | more) == expected


# By hand: 120 V, max(2500, 1.6 · 350, 4000) = 4000 V; 530 V measured, max(4000, 848, 4000).
@pytest.mark.parametrize("more", [
    {"rated_voltage_high": 120.0}, {"rated_voltage_high": 240.0, "working_voltage_peak": 530.0}])
def test_what_is_required(more):
    found = asked("electric_strength", breakdown_voltage=9e3, **more)
    assert (found.low[0], found.high[0]) == (4000.0, 4000.0)


def test_an_unread_plate_asks_for_no_more_than_consumers_mains_can_need():
    # Every consumer's mains is up to 250 V nominally: 4000 V d.c.
    assert asked("electric_strength", breakdown_voltage=9e3).high[0] == 4000.0


def test_the_withdrawn_standard_is_shown_beside_it():
    # Test report on a charger: 3000 V rms at 530 V peak.
    found = asked("electric_strength", breakdown_voltage=9e3, working_voltage_peak=530.0, **UNIT)
    assert found.numbers["legacy_strength"][0] == 3000.0


def test_more_withstood_for_longer_is_never_worse_and_higher_mains_are_never_better():
    more_is_never_worse("electric_strength", "electric_strength_withstood")
    more_is_never_worse("electric_strength", "electric_strength_duration")
    more_is_never_worse("electric_strength", "breakdown_voltage")
    more_is_never_better("electric_strength", "rated_voltage_high")
    more_is_never_better("electric_strength", "working_voltage_peak", 3.0)
