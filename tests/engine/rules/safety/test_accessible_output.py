"""Voltage at the output."""

import pytest

from tests.engine.rules.safety.asked import grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# IEC 62368-1, table 4: 5.1 V and 48 V are ES1, above 120 V ES3; between both only after a fault.
@pytest.mark.parametrize(
    "known, expected",
    [
        ({"offered_voltage": 5.1, "offered_voltage_u": 0.05}, "meets"),
        ({"offered_voltage": 48.0, "offered_voltage_u": 0.1}, "meets"),
        ({"offered_voltage": 130.0, "offered_voltage_u": 1.0}, "falls short"),
        (
            {
                "output_voltage_no_load": 75.0,
                "output_voltage_no_load_u": 0.1,
                "offered_voltage": 12.0,
                "offered_voltage_u": 0.1,
            },
            "cannot tell",
        ),
        ({"claimed_output_voltage": 5.0}, "cannot tell"),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("accessible_output", **known) == expected


def test_a_higher_voltage_is_never_better():
    more_is_never_better("accessible_output", "offered_voltage")
    more_is_never_better("accessible_output", "output_voltage_no_load")


# 125 ± 0.5 V lies above 120 V whatever a second reading of 126 ± 12 V says.
def test_a_vague_higher_reading_hides_no_shortfall():
    assert grade_of("accessible_output", output_voltage_no_load=125.0,
                    output_voltage_no_load_u=0.5, offered_voltage=126.0,
                    offered_voltage_u=12.0) == "falls short"
