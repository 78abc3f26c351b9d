"""Temperature of the board."""

import pytest

from tests.engine.rules.safety.any_inputs import NAN
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse


# Test report: 104.4 °C, 130 °C marked.
@pytest.mark.parametrize(
    "known, expected",
    [
        (
            {
                "board_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "board_temperature": 104.4,
                "board_temperature_rating": 130.0,
            },
            "meets",
        ),
        (
            {
                "board_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "board_temperature": 120.0,
                "board_temperature_rating": 105.0,
            },
            "falls short",
        ),
        (
            {"board_temperature_u": 2.0, "ambient_temperature": 25.0, "board_temperature": 120.0},
            "cannot tell",
        ),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("board_temperature", **known) == expected


# 48 °C meets and 150 °C falls short of every limit; 9.8 W of 40 W may become hotter, 60 W is more
# than was printed.
@pytest.mark.parametrize("at, load, expected", [
    (48.0, 9.8, "cannot tell"), (48.0, 40.0, "meets"), (48.0, 60.0, "meets"),
    (150.0, 9.8, "falls short"), (150.0, 60.0, "cannot tell"), (48.0, NAN, "meets")])
def test_a_reading_at_another_load_decides_only_one_way(at, load, expected):
    assert grade_of("board_temperature", board_temperature=at,
                    board_temperature_u=2.0, ambient_temperature=25.0,
                    temperature_load=load, largest_printed_output=40.0) == expected


def test_a_load_that_was_not_noted_is_an_assumption():
    found = asked("board_temperature", board_temperature=48.0,
                  largest_printed_output=40.0)
    assert found.assumed["printed_load"][0]
def test_which_way_each_temperature_counts():
    more_is_never_better("board_temperature", "board_temperature")
    more_is_never_better("board_temperature", "rated_ambient")
    more_is_never_worse("board_temperature", "ambient_temperature")
    more_is_never_worse("board_temperature", "board_temperature_rating")
