"""Rated voltage of the capacitor across the mains."""
import pytest

from tests.engine.rules.safety.asked import grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse

PART = {"role": "x_capacitor", "state": "recorded", "rated_voltage_high": 240.0}


# By hand: 275 V and 250 V on 240 V, 125 V and 160 V below.
@pytest.mark.parametrize("volts, expected", [
    (275.0, "meets"), (250.0, "meets"), (125.0, "falls short"), (160.0, "falls short"),
    (27.5, "cannot tell"),       # across the mains it would burst at once
    (float("nan"), "cannot tell")])
def test_grades(volts, expected):
    assert grade_of("mains_capacitor_voltage", **PART, part_voltage=volts) == expected


def test_an_unread_plate_decides_only_what_holds_for_both():
    # Mains of 100 V to 240 V: 125 V is between, 275 V above.
    part = PART | {"rated_voltage_high": float("nan")}
    assert grade_of("mains_capacitor_voltage", **part, part_voltage=125.0) == "cannot tell"
    assert grade_of("mains_capacitor_voltage", **part, part_voltage=275.0) == "meets"


def test_a_capacitor_that_bridges_the_mains_is_asked_whatever_its_role():
    part = PART | {"role": "barrier_capacitor", "part_voltage": 125.0}
    assert grade_of("mains_capacitor_voltage", **part, bridges="L_N") == "falls short"
    assert grade_of("mains_capacitor_voltage", **part) is None


def test_a_higher_rating_is_never_worse_and_higher_mains_are_never_better():
    more_is_never_worse("mains_capacitor_voltage", "part_voltage", least=100.0)
    more_is_never_better("mains_capacitor_voltage", "rated_voltage_high")
