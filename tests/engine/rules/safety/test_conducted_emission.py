"""Conducted emission."""

import pytest

from tests.engine.rules.safety.any_inputs import NAN
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# EN 55032: 10 MHz 60/50 dBµV; 56/46 at 0.5 MHz. By hand with 3.5 dB.
@pytest.mark.parametrize(
    "known, expected",
    [
        (
            {
                "emission_frequency": 10000000.0,
                "emission_quasi_peak": 50.0,
                "emission_average": 40.0,
                "emission_equipped": 1.0,
            },
            "meets",
        ),
        (
            {
                "emission_frequency": 10000000.0,
                "emission_quasi_peak": 64.0,
                "emission_average": 40.0,
                "emission_equipped": 1.0,
            },
            "falls short",
        ),
        (
            {
                "emission_frequency": 10000000.0,
                "emission_quasi_peak": 62.0,
                "emission_average": 40.0,
                "emission_equipped": 1.0,
            },
            "cannot tell",
        ),
        ({"emission_frequency": 10000000.0, "emission_quasi_peak": 70.0}, "cannot tell"),
        ({}, None),
    ],
)
def test_grades(known, expected):
    assert grade_of("conducted_emission", **known) == expected


# 10 MHz: 60 dBµV quasi-peak, 50 average.
@pytest.mark.parametrize("peak, average, shown, limit", [
    (55.0, 54.9, 54.9, 50.0), (70.0, 54.9, 70.0, 60.0), (NAN, 60.0, 60.0, 50.0),
    (40.0, NAN, 40.0, 60.0)])
def test_the_detector_that_decides_is_shown(peak, average, shown, limit):
    found = asked("conducted_emission", emission_frequency=1e7, emission_equipped=1.0,
                  emission_quasi_peak=peak, emission_average=average)
    assert (found.value[0], found.low[0], found.high[0]) == (shown, limit, limit)
def test_more_is_never_better():
    more_is_never_better("conducted_emission", "emission_quasi_peak")
    more_is_never_better("conducted_emission", "emission_average")
