"""Check values of IEC 60062 and EIA-96; what each scheme yields is worked out in its own test."""

import pytest

from teardowns.reading.markings.resistor import decode_resistor


@pytest.mark.parametrize(
    ("text", "ohms", "tolerance", "scheme"),
    [("221", 220.0, None, "three digits"), ("1002", 10e3, None, "four digits"),
     ("4K7J", 4.7e3, (-0.05, 0.05), "RKM"), ("01C", 10e3, None, "EIA-96"),
     ("4R7 1W", 4.7, None, "RKM"), ("10 ohm 5%", 10.0, (-0.05, 0.05), "written"),
     ("4.7kΩ", 4.7e3, None, "written"), ("000", 0.0, None, "jumper"), ("0", 0.0, None, "jumper"),
     ("yellow violet red gold", 4.7e3, (-0.05, 0.05), "colour bands")],
)  # fmt: skip
def test_a_marking_is_decoded(text, ohms, tolerance, scheme):
    decoding = decode_resistor(text)
    assert (decoding.value, decoding.tolerance, decoding.scheme) == (ohms, tolerance, scheme)
    assert decoding.unread == ""


def test_three_digits_name_the_reading_as_a_capacitor():
    other = decode_resistor("221").others[0]
    assert (other.value, other.unit) == (220e-12, "F")


def test_ten_r_may_be_an_eia_96_code():
    # index 10 of E96 is 124, R multiplies by 0.01
    decoding = decode_resistor("10R")
    assert decoding.value == 10.0
    assert decoding.others[0].value == 1.24


def test_two_bare_digits_are_proposed_and_not_taken():
    decoding = decode_resistor("22")
    assert decoding.value is None
    assert decoding.others[0].value == 22.0


def test_bands_that_fit_both_ways_name_the_other_way():
    # brown red black black brown: 120 × 1
    decoding = decode_resistor("brown black black red brown")
    assert decoding.others[0].value == 120.0


def test_only_plain_digits_are_read():
    assert decode_resistor("٤.٧K").value is None


def test_the_power_rating_is_read_beside_the_value():
    assert decode_resistor("4R7 1/2W").rated_power == 0.5


def test_what_is_not_understood_is_kept():
    assert decode_resistor("4K7 ABX").unread == "ABX"
