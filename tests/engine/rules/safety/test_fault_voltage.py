"""Output voltage after one fault."""
import pytest

from tests.engine.rules.safety.asked import grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# 60 V d.c.: power supply makers' pages; 18 V by hand.
@pytest.mark.parametrize("known, expected", [
    ({"fault_output_voltage": 18.0, "fault_output_voltage_u": 0.5}, "meets"),
    ({"fault_output_voltage": 75.0, "fault_output_voltage_u": 0.5}, "falls short"),
    ({"fault_output_voltage": 60.2, "fault_output_voltage_u": 0.5}, "cannot tell"),
    ({}, None),
])
def test_grades(known, expected):
    assert grade_of("fault_voltage", **known) == expected


def test_more_is_never_better():
    more_is_never_better("fault_voltage", "fault_output_voltage")
