"""Codes of IEC 60062; several also stand in an open-source RKM package's tests."""

import pytest

from teardowns.reading.markings.rkm import CAPACITOR_POWERS, RESISTOR_POWERS, read_rkm

RESISTORS = [
    ("R47", 0.47), ("4R7", 4.7), ("470R", 470.0), ("4K7", 4.7e3), ("47K", 47e3), ("470K", 470e3),
    ("4M7", 4.7e6), ("L33", 0.33e-3), ("1K0", 1e3), ("10K", 10e3),
]  # fmt: skip
CAPACITORS = [
    ("p68", 0.68e-12), ("6p8", 6.8e-12), ("4n7", 4.7e-9), ("n47", 0.47e-9), ("2u2", 2.2e-6),
    ("2µ2", 2.2e-6),
]  # fmt: skip


@pytest.mark.parametrize(("code", "ohms"), RESISTORS)
def test_a_resistor_code_is_read(code, ohms):
    assert read_rkm(code, RESISTOR_POWERS) == (ohms, "")


@pytest.mark.parametrize(("code", "farads"), CAPACITORS)
def test_a_capacitor_code_is_read(code, farads):
    assert read_rkm(code, CAPACITOR_POWERS) == (farads, "")


def test_a_tolerance_letter_follows_the_code():
    assert read_rkm("4K7J", RESISTOR_POWERS) == (4.7e3, "J")


@pytest.mark.parametrize("code", ["K", "47", "4X7", "", "4K7.", "٤K٧"])
def test_what_is_no_code_is_not_read(code):
    assert read_rkm(code, RESISTOR_POWERS) is None
