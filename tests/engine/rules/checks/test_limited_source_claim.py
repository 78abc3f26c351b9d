"""Limited sources by table 2C: 250 VA and 1000/U A to 60 V, as a published page prints it."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.limited_source_claim import limited_source_claim
from tests.engine.make import NAN


@pytest.mark.parametrize("volts, amps, watts, expected", [
    (12.0, 2.0, 24.0, CONSISTENT), (48.0, 6.0, 288.0, INCONSISTENT),
    (48.0, 21.0, NAN, INCONSISTENT), (90.0, 1.0, 90.0, INCONSISTENT)])
def test_printed_outputs(volts, amps, watts, expected):
    assert limited_source_claim(1.0, volts, amps, watts).outcome == expected


def test_without_the_mark_or_a_voltage_nothing_is_said():
    assert limited_source_claim(0.0, 48.0, 6.0, 288.0) is None
    assert limited_source_claim(1.0, NAN, 6.0, 288.0) is None


def test_a_voltage_alone_decides_nothing():
    assert limited_source_claim(1.0, 12.0, NAN, NAN).outcome == CANNOT_TELL


def test_above_60_volts_the_sentence_names_the_voltage():
    found = limited_source_claim(1.0, 90.0, 1.0, 90.0).sentence
    assert "60\u202fV" in found and "unknown" not in found
