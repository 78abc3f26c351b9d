"""Chip codes from a maker's polymer series (476 1C, 336 1E, 337 0J); cans print µF and V."""

import pytest

from teardowns.reading.markings.electrolytic import decode_electrolytic

DECODED = [
    ("476 1C", 47e-6, 16.0, None),
    ("336 1E", 33e-6, 25.0, None),
    ("337 0J", 330e-6, 6.3, None),
    ("4761C", 47e-6, 16.0, None),
    ("15µF 400V 105°C", 15e-6, 400.0, 105.0),
    ("400V15µF 105℃", 15e-6, 400.0, 105.0),
    ("22 µF 400 V -40+105°C", 22e-6, 400.0, 105.0),
    ("4,7uF/400V", 4.7e-6, 400.0, None),
    ("100 16V", 100e-6, 16.0, None),
    ("220\n25V", 220e-6, 25.0, None),
    ("4R7 50V", 4.7e-6, 50.0, None),
    ("107J", 100e-6, 6.3, None),
    ("1000/16", 1000e-6, 16.0, None),
    ("228 16V", 2200e-6, 16.0, None),  # 22 × 10⁸ pF
]


@pytest.mark.parametrize(("text", "farads", "volts", "celsius"), DECODED)
def test_a_marking_is_decoded(text, farads, volts, celsius):
    decoding = decode_electrolytic(text)
    assert (decoding.value, decoding.rated_voltage) == (farads, volts)
    assert (decoding.temperature, decoding.unread) == (celsius, "")
    assert decoding.voltage_kind == "dc"


def test_a_code_whose_plain_number_is_in_no_e_series_has_one_reading():
    assert decode_electrolytic("476 1C").others == ()  # 47 is in E6 of IEC 60063, 476 in none


def test_a_number_that_fits_neither_way_is_left_open():
    decoding = decode_electrolytic("471 16V")
    assert decoding.value is None
    assert [other.value for other in decoding.others] == [471e-6, 470e-12]


def test_a_bare_temperature_class_is_noted():
    decoding = decode_electrolytic("6.8uF 400V (M) 105")
    assert (decoding.temperature, decoding.tolerance) == (105.0, (-0.2, 0.2))
    assert decoding.notes


def test_series_letters_stay_unread():
    assert decode_electrolytic("47µF 25V FKX").unread == "FKX"
