"""Continuous voltage of the varistor."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse

PART = {"role": "varistor", "state": "recorded", "rated_voltage_high": 240.0}


# 1.25 · 240 V = 300 V (IEC 62368-1, G.8, from memory).
@pytest.mark.parametrize("volts, expected", [
    (320.0, "meets"), (275.0, "falls short"), (float("nan"), "cannot tell")])
def test_grades(volts, expected):
    assert grade_of("varistor", **PART, part_voltage=volts) == expected


def test_it_is_a_flag_and_no_finding():
    found = asked("varistor", **PART, part_voltage=275.0)
    assert found.flagged[0] and found.worded[0] == 0


# 1.25 · 120 V = 150 V.
def test_an_unread_plate_flags_no_varistor_for_120_v():
    part = PART | {"rated_voltage_high": float("nan")}
    assert grade_of("varistor", **part, part_voltage=150.0) == "cannot tell"
    assert not asked("varistor", **part, part_voltage=150.0).flagged[0]


def test_a_higher_voltage_is_never_worse_and_higher_mains_are_never_better():
    more_is_never_worse("varistor", "part_voltage")
    more_is_never_better("varistor", "rated_voltage_high")
