"""IEC 60384-14: the marking shows class and rated a.c. voltage, one voltage a class."""

import pytest

from teardowns.reading.markings.safety_capacitor import decode_safety_capacitor

DECODED = [
    ("X1 400~ Y1 250~ 222M", 2.2e-9, (("X1", 400.0), ("Y1", 250.0))),
    ("X1 400 V, Y2 250 V 222", 2.2e-9, (("X1", 400.0), ("Y2", 250.0))),  # KEMET training pattern
    ("X2 275V~ 0.1µF", 0.1e-6, (("X2", 275.0),)),
    ("104K 275VAC X2", 100e-9, (("X2", 275.0),)),
    ("X1:440V Y1:400V AC 471K", 470e-12, (("X1", 440.0), ("Y1", 400.0))),
    ("X1/Y2 400/250V~ 222", 2.2e-9, (("X1", 400.0), ("Y2", 250.0))),
    ("X1Y1 400V 472M", 4.7e-9, (("X1", 400.0), ("Y1", 400.0))),
    ("Y2 300VAC 102", 1.0e-9, (("Y2", 300.0),)),
    ("4n7 Y1", 4.7e-9, (("Y1", None),)),
]


@pytest.mark.parametrize(("text", "farads", "classes"), DECODED)
def test_value_and_classes_are_decoded(text, farads, classes):
    decoding = decode_safety_capacitor(text)
    assert (decoding.value, decoding.safety_classes) == (farads, classes)
    assert decoding.unread == ""


def test_the_rated_voltage_is_the_lowest_and_says_so():
    decoding = decode_safety_capacitor("X1 400~ Y1 250~ 222M")
    assert (decoding.rated_voltage, decoding.voltage_kind) == (250.0, "ac")
    assert any("lowest" in note for note in decoding.notes)


def test_one_voltage_for_two_classes_is_noted():
    assert any("X1 and Y1" in note for note in decode_safety_capacitor("X1Y1 400V").notes)


def test_a_missing_class_is_noted():
    decoding = decode_safety_capacitor("222M 250V~")
    assert decoding.safety_classes == ()
    assert any("No class" in note for note in decoding.notes)


def test_voltages_that_do_not_match_the_classes_are_left_open():
    decoding = decode_safety_capacitor("X1 440V Y1 400V 250V")
    assert decoding.safety_classes == (("X1", None), ("Y1", None))


def test_a_dc_voltage_is_not_the_class_voltage():
    decoding = decode_safety_capacitor("X2 630VDC 104K")
    assert decoding.safety_classes == (("X2", None),)
    assert decoding.unread == "630VDC"
