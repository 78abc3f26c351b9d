"""A source that calls itself limited."""

import pytest

from teardowns.engine import rulebook
from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# Table 2B: 12 V 8 A and 60 VA; table 2C: 1000/12 = 83 A and 250 VA.
@pytest.mark.parametrize(
    "known, expected",
    [
        (
            {
                "claims_limited_source": 1.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
                "output_voltage_no_load": 12.0,
                "short_circuit_current": 4.0,
                "largest_apparent_power": 50.0,
            },
            "meets",
        ),
        (
            {
                "claims_limited_source": 1.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
                "output_voltage_no_load": 12.0,
                "short_circuit_current": 90.0,
            },
            "falls short",
        ),
        (
            {
                "claims_limited_source": 1.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
                "output_voltage_no_load": 12.0,
                "short_circuit_current": 20.0,
                "largest_apparent_power": 50.0,
            },
            "cannot tell",
        ),
        (
            {
                "claims_limited_source": 1.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
                "output_voltage_no_load": 12.0,
                "short_circuit_current": 4.0,
            },
            "cannot tell",
        ),
        (
            {
                "claims_limited_source": 0.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
                "short_circuit_current": 90.0,
            },
            None,
        ),
        (
            {
                "claims_limited_source": 1.0,
                "short_circuit_current_u": 0.0,
                "largest_apparent_power_u": 0.0,
            },
            None,
        ),
    ],
)
def test_grades(known, expected):
    assert grade_of("limited_source", **known) == expected


# Table 2B at 12 V: 8 A and 60 VA; 2C: 83 A and 250 VA. The reason names what decides.
@pytest.mark.parametrize("amps, power, volts, expected", [
    (4.0, 300.0, 12.0, "more power"), (4.0, 80.0, 12.0, "Whether more power"),
    (4.0, 50.0, 75.0, "to 60 V"), (4.0, 50.0, 12.0, ""), (90.0, 300.0, 12.0, "")])
def test_the_reason_names_what_decides(amps, power, volts, expected):
    found = asked("limited_source", claims_limited_source=1.0, short_circuit_current=amps,
                  short_circuit_current_u=0.0, largest_apparent_power=power,
                  largest_apparent_power_u=0.0, output_voltage_no_load=volts)
    reason = rulebook.load()["safety/limited_source"].reasons[found.why[0]]
    assert expected in reason and bool(expected) == bool(reason)
def test_more_is_never_better():
    more_is_never_better("limited_source", "short_circuit_current")
    more_is_never_better("limited_source", "largest_apparent_power")
