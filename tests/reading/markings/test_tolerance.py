"""Letters of IEC 60062; C on small capacitors is 0.25 pF in makers' tables."""

import pytest

from teardowns.reading.markings.tolerance import (
    capacitor_tolerance,
    read_percent,
    tolerance_of,
)

LETTERS = [
    ("B", -0.001, 0.001), ("C", -0.0025, 0.0025), ("D", -0.005, 0.005), ("F", -0.01, 0.01),
    ("G", -0.02, 0.02), ("J", -0.05, 0.05), ("K", -0.10, 0.10), ("M", -0.20, 0.20),
    ("N", -0.30, 0.30), ("Q", -0.10, 0.30), ("T", -0.10, 0.50), ("S", -0.20, 0.50),
    ("Z", -0.20, 0.80),
]  # fmt: skip


@pytest.mark.parametrize(("letter", "low", "high"), LETTERS)
def test_a_letter_is_a_pair_of_fractions(letter, low, high):
    assert tolerance_of(letter) == (low, high)


def test_below_ten_picofarads_the_letter_is_absolute():
    low, high = capacitor_tolerance("C", 2.2e-12)  # 0.25 pF of 2.2 pF
    assert high == pytest.approx(0.25 / 2.2)
    assert low == -high


def test_at_ten_picofarads_the_letter_is_relative():
    assert capacitor_tolerance("J", 10e-12) == (-0.05, 0.05)


def test_a_printed_percentage_is_read():
    assert read_percent("±20%") == (-0.2, 0.2)
    assert read_percent("20") is None
