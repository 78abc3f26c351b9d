"""Codes from makers' tables (KEMET, TDK, AVX): digits, tolerance letter, voltage code."""

import pytest

from teardowns.reading.markings.capacitor import decode_capacitor

DECODED = [
    ("104K", 100e-9, (-0.1, 0.1), None),
    ("104", 100e-9, None, None),
    ("222M 1KV", 2.2e-9, (-0.2, 0.2), 1000.0),
    ("104J630", 100e-9, (-0.05, 0.05), 630.0),
    ("2A104J", 100e-9, (-0.05, 0.05), 100.0),  # 2A: 1.0 × 10² V
    ("104K1H", 100e-9, (-0.1, 0.1), 50.0),
    ("4n7K 400V", 4.7e-9, (-0.1, 0.1), 400.0),
    ("100nF", 100e-9, None, None),
    ("0,1µF 50V", 0.1e-6, None, 50.0),
    (".047K 400V", 0.047e-6, (-0.1, 0.1), 400.0),
    ("47", 47e-12, None, None),
]


@pytest.mark.parametrize(("text", "farads", "tolerance", "volts"), DECODED)
def test_a_marking_is_decoded(text, farads, tolerance, volts):
    decoding = decode_capacitor(text)
    assert (decoding.value, decoding.tolerance) == (farads, tolerance)
    assert (decoding.rated_voltage, decoding.unread) == (volts, "")


def test_a_lone_code_names_the_reading_as_a_resistor():
    assert [(o.value, o.unit) for o in decode_capacitor("221").others] == [(220.0, "Ω")]
    assert decode_capacitor("221").value == 220e-12


def test_a_code_with_a_tolerance_letter_has_no_other_reading():
    assert decode_capacitor("104K").others == ()


def test_a_code_ending_in_zero_may_be_plain_picofarads():
    decoding = decode_capacitor("100")
    assert decoding.value == 10e-12
    assert 100e-12 in [other.value for other in decoding.others]


def test_an_f_behind_an_rkm_code_is_no_one_per_cent():
    decoding = decode_capacitor("4n7F")
    assert decoding.tolerance is None
    assert decoding.notes


def test_a_unit_read_without_its_sign_is_noted():
    assert "µF" in decode_capacitor(".047K").notes[0]


def test_a_printed_class_makes_it_a_safety_capacitor():
    assert decode_capacitor("222M Y2 250V~").safety_classes == (("Y2", 250.0),)


def test_a_dielectric_is_not_taken_for_a_class():
    assert decode_capacitor("104K X7R").safety_classes == ()
