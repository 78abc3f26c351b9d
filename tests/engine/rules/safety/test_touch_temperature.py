"""Temperature of the case."""

import pytest

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT
from tests.engine.rules.safety.any_inputs import NAN
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# Plastic 77 °C for 1 s to 10 s, 94 °C below 1 s: threads of a product-safety list;
# 79.6 °C in a test report.
@pytest.mark.parametrize(
    "known, expected",
    [
        ({"case_temperature": 60.0, "case_temperature_u": 2.0}, "meets"),
        ({"case_temperature": 79.6, "case_temperature_u": 2.0}, "cannot tell"),
        ({"case_temperature": 99.0, "case_temperature_u": 2.0}, "falls short"),
        (
            {"case_temperature": 80.0, "case_temperature_u": 2.0, "case_is_metal": 1.0},
            "falls short",
        ),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("touch_temperature", **known) == expected


# 48 °C meets and 150 °C falls short of every limit; 9.8 W of 40 W may become hotter, 60 W is more
# than was printed.
@pytest.mark.parametrize("at, load, expected", [
    (48.0, 9.8, "cannot tell"), (48.0, 40.0, "meets"), (48.0, 60.0, "meets"),
    (150.0, 9.8, "falls short"), (150.0, 60.0, "cannot tell"), (48.0, NAN, "meets")])
def test_a_reading_at_another_load_decides_only_one_way(at, load, expected):
    assert grade_of("touch_temperature", case_temperature=at, case_temperature_u=2.0,
                    temperature_load=load, largest_printed_output=40.0) == expected


def test_a_load_that_was_not_noted_is_an_assumption():
    found = asked("touch_temperature", case_temperature=48.0, largest_printed_output=40.0)
    assert found.assumed["printed_load"][0]
# Metal touched for less than 1 s: 70 °C, from memory, so no more than a flag.
def test_hot_metal_is_flagged():
    found = asked("touch_temperature", case_temperature=72.0, case_temperature_u=1.0,
                  case_is_metal=1.0)
    assert found.grade[0] == FALLS_SHORT and found.flagged[0] and found.worded[0] == CANNOT_TELL


def test_a_hotter_case_is_never_better():
    more_is_never_better("touch_temperature", "case_temperature")
