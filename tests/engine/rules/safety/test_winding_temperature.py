"""Temperature of the transformer."""

import pytest

from teardowns.engine.grading import FALLS_SHORT
from tests.engine.rules.safety.any_inputs import NAN
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse


# Test report: class 130, 103.3 °C by thermocouple, 110 °C allowed; 112 °C above it by hand.
@pytest.mark.parametrize(
    "known, expected",
    [
        (
            {
                "transformer_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "transformer_temperature": 103.3,
                "winding_thermal_class": 130.0,
            },
            "meets",
        ),
        (
            {
                "transformer_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "transformer_temperature": 113.0,
                "winding_thermal_class": 130.0,
            },
            "falls short",
        ),
        (
            {
                "transformer_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "transformer_temperature": 100.0,
            },
            "cannot tell",
        ),
        (
            {
                "transformer_temperature_u": 2.0,
                "ambient_temperature": 25.0,
                "transformer_temperature": 85.0,
            },
            "meets",
        ),
        ({"transformer_temperature": 113.0, "transformer_temperature_u": 2.0}, "cannot tell"),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("winding_temperature", **known) == expected


# 48 °C meets and 150 °C falls short of every limit; 9.8 W of 40 W may become hotter, 60 W is more
# than was printed.
@pytest.mark.parametrize("at, load, expected", [
    (48.0, 9.8, "cannot tell"), (48.0, 40.0, "meets"), (48.0, 60.0, "meets"),
    (150.0, 9.8, "falls short"), (150.0, 60.0, "cannot tell"), (48.0, NAN, "meets")])
def test_a_reading_at_another_load_decides_only_one_way(at, load, expected):
    assert grade_of("winding_temperature", transformer_temperature=at,
                    transformer_temperature_u=2.0, ambient_temperature=25.0,
                    temperature_load=load, largest_printed_output=40.0) == expected


def test_a_load_that_was_not_noted_is_an_assumption():
    found = asked("winding_temperature", transformer_temperature=48.0,
                  largest_printed_output=40.0)
    assert found.assumed["printed_load"][0]
# By hand: class 130 allows 110 °C, class 120 only 105 °C, which is from memory: a flag.
@pytest.mark.parametrize("of_class, flagged", [(130.0, False), (120.0, True), (NAN, True)])
def test_only_a_limit_that_was_read_words_a_shortfall(of_class, flagged):
    found = asked("winding_temperature", transformer_temperature=112.0, ambient_temperature=25.0,
                  transformer_temperature_u=1.0, winding_thermal_class=of_class)
    assert found.grade[0] == FALLS_SHORT and found.flagged[0] == flagged


# Test report: 103.3 °C at 27.2 °C; in air of 40 °C by hand 116.1 °C, more than class 130 allows.
def test_a_warmer_marked_air_asks_for_a_cooler_winding():
    assert grade_of("winding_temperature", transformer_temperature=103.3,
                    transformer_temperature_u=2.0, ambient_temperature=27.2, rated_ambient=40.0,
                    winding_thermal_class=130.0) == "falls short"


def test_which_way_each_temperature_counts():
    more_is_never_better("winding_temperature", "transformer_temperature")
    more_is_never_better("winding_temperature", "rated_ambient")
    more_is_never_worse("winding_temperature", "ambient_temperature")
