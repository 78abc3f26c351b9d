"""Bands of IEC 60062, table 1; each value follows from its digits and multiplier."""

import pytest

from teardowns.reading.markings.colour_bands import colour_names, read_bands

BANDS = [
    ("yellow violet red gold", 4.7e3, 0.05),
    ("brown black black red brown", 10e3, 0.01),
    ("red red silver gold", 0.22, 0.05),
    ("orange orange gold silver", 3.3, 0.10),
    ("blue grey black gold brown", 68.0, 0.01),
    ("brown black black", 10.0, 0.20),  # no fourth band: 20 %
    ("red red black black brown brown", 220.0, 0.01),  # the sixth is the temperature coefficient
]


@pytest.mark.parametrize(("names", "ohms", "tolerance"), BANDS)
def test_bands_give_value_and_tolerance(names, ohms, tolerance):
    assert read_bands(tuple(names.split())) == (ohms, tolerance)


@pytest.mark.parametrize("names", ["gold red red brown", "red red", "red red red orange"])
def test_impossible_bands_are_not_read(names):
    assert read_bands(tuple(names.split())) is None


def test_names_may_be_separated_as_people_do():
    assert colour_names("Yellow-Violet, red / gold") == ("yellow", "violet", "red", "gold")
    assert colour_names("gray purple") == ("grey", "violet")
    assert colour_names("red 104") is None
