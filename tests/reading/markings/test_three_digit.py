"""Capacitor codes from makers' tables (KEMET, TDK, AVX), 229 with their rule n = 9 → × 0.1."""

import pytest

from teardowns.reading.markings.three_digit import read_digits


@pytest.mark.parametrize(
    ("code", "farads"),
    [("104", 100e-9), ("223", 22e-9), ("105", 1e-6), ("472", 4.7e-9), ("229", 2.2e-12)],
)
def test_a_capacitor_code_counts_picofarads(code, farads):
    assert read_digits(code, -12, ceramic=True) == farads


@pytest.mark.parametrize(("code", "ohms"), [("221", 220.0), ("1002", 10e3), ("4991", 4.99e3)])
def test_a_resistor_code_counts_ohms(code, ohms):
    assert read_digits(code, 0) == ohms


def test_other_lengths_are_no_code():
    assert read_digits("47", 0) is None
    assert read_digits("12345", 0) is None
