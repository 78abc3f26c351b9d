"""Printed values worked out by hand; rounding to the uncertainty after JCGM 100:2008, 7.2.6."""

from math import inf, nan

import pytest

from teardowns.reading.printing import print_interval, print_quantity

N = "\u202f"  # narrow no-break space
MINUS = "\u2212"

PRINTED = [
    (15.2e-6, "F", 0.3e-6, f"15.2{N}±{N}0.3{N}µF"),
    (15.234e-6, "F", 0.12e-6, f"15.23{N}±{N}0.12{N}µF"),  # first digit 1: two digits kept
    (15.26e-6, "F", 0.97e-6, f"15{N}±{N}1{N}µF"),  # 0.97 rounds to 1 at one digit
    (15.26e-6, "F", 0.0996e-6, f"15.26{N}±{N}0.10{N}µF"),  # at two digits it begins with 1
    (0.0003, "V", 0.002, f"0{N}±{N}2{N}mV"),  # smaller than its uncertainty
    (999_960.0, "Hz", 300.0, f"1.0000{N}±{N}0.0003{N}MHz"),
    (5400.0, "s", 90.0, f"90.0{N}±{N}1.5{N}min"),
    (12_345.0, "1", 300.0, f"12300{N}±{N}300"),
]


@pytest.mark.parametrize(("value", "unit", "uncertainty", "text"), PRINTED)
def test_a_value_is_rounded_to_its_uncertainty(value, unit, uncertainty, text):
    assert print_quantity(value, unit, uncertainty=uncertainty) == text


PLAIN = [
    (999_960.0, "Hz", f"1.00{N}MHz"),  # 999.96 kHz rolls over
    (0.25e-3, "m", f"0.250{N}mm"),
    (1.0, "m", f"1.00{N}m"),
    (0.042, "kg", f"42.0{N}g"),
    (1.2, "kg", f"1.20{N}kg"),
    (23.3e-6, "m²", f"23.3{N}mm²"),
    (0.01, "m²", f"100{N}cm²"),
    (5400.0, "s", f"90.0{N}min"),
    (90.0, "s", f"90.0{N}s"),
    (4700.0, "Ω", f"4.70{N}kΩ"),
    (-5.04, "°C", f"{MINUS}5.04{N}°C"),
    (0.5, "%", f"0.500{N}%"),
    (0.87, "1", "0.870"),
    (0.0, "V", f"0{N}V"),
    (0.0, "m", f"0{N}mm"),
    (-1e-12, "°C", f"{MINUS}1.00e-12{N}°C"),
    (inf, "W", f"∞{N}W"),
]


@pytest.mark.parametrize(("value", "unit", "text"), PLAIN)
def test_a_value_without_uncertainty_keeps_three_digits(value, unit, text):
    assert print_quantity(value, unit) == text


@pytest.mark.parametrize("value", [None, nan])
def test_an_unknown_value_is_never_printed_as_a_number(value):
    assert print_quantity(value, "V") == "unknown"


INTERVALS = [
    (13.1, 16.7, "W", f"13.1 to 16.7{N}W"),
    (0.95, 16.7, "W", f"0.95 to 16.7{N}W"),
    (999.0, 1200.0, "W", f"1.00 to 1.20{N}kW"),
    (-1.0, 1.0, "°C", f"{MINUS}1.00 to 1.00{N}°C"),
    (13.1, inf, "W", f"at least 13.1{N}W"),
    (-inf, 16.7, "W", f"at most 16.7{N}W"),
    (-inf, inf, "W", "unknown"),
    (nan, 1.0, "W", "unknown"),
]


@pytest.mark.parametrize(("low", "high", "unit", "text"), INTERVALS)
def test_an_interval_has_one_unit(low, high, unit, text):
    assert print_interval(low, high, unit) == text


def test_an_interval_that_is_upside_down_is_an_error():
    with pytest.raises(ValueError, match="above its upper end"):
        print_interval(2.0, 1.0, "W")
