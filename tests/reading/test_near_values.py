"""Each remedy can be typed as it stands; its numbers are worked out in a comment."""
import re

import pytest

from teardowns.reading.quantity import QuantityError, read_quantity

# text, unit, unit of a bare number, what is written instead
NEARLY = [
    ("65-70k", "Hz", "kHz", "67.5 ± 2.5 k"),          # (65 + 70) / 2, (70 − 65) / 2
    ("65 to 70 kHz", "Hz", "kHz", "67.5 ± 2.5 kHz"),
    ("70–65", "Hz", "kHz", "67.5 ± 2.5"),
    ("5V-6V", "V", "V", "5.5 ± 0.5 V"),
    ("4,5 bis 5 V", "V", "V", "4,75 ± 0,25 V"),
    ("12…15", "V", "V", "13.5 ± 1.5"),
    ("88-90 %", "1", "%", "89 ± 1 %"),
    ("~5 V", "V", "V", "5 V ± 10 %"),
    ("ca. 5", "V", "V", "5 ± 10 %"),
    ("5 V?", "V", "V", "5 V ± 10 %"),
    ("1/2", "m", "mm", "0.5"),
    ("2½ mm", "m", "mm", "2.5 mm"),
    ("1 1/4", "m", "mm", "1.25"),
]


def refusal(text, unit, default_unit, **takes):
    with pytest.raises(QuantityError) as raised:
        read_quantity(text, unit, default_unit=default_unit, **takes)
    return raised.value.message


@pytest.mark.parametrize("text, unit, default_unit, remedy", NEARLY)
def test_what_is_nearly_a_value_is_refused_with_what_can_be_typed(text, unit, default_unit, remedy):
    said = refusal(text, unit, default_unit)
    assert said.startswith(f"“{text}”") and f"“{remedy}”" in said
    read_quantity(remedy, unit, default_unit=default_unit)


def test_a_clock_names_both_of_its_readings():
    said = refusal("1:30", "s", "min")
    assert re.findall("“(.*?)”", said) == ["1:30", "90 min", "90 s"]     # 60 + 30, either way


@pytest.mark.parametrize("text", ["n/a", "?", "--", "unknown", "not measured"])
def test_a_word_for_nothing_leads_to_the_state(text):
    assert "leave this empty, and choose “Not looked”" in refusal(text, "V", "V")


def test_what_a_meter_shows_beyond_its_scale_is_no_value():
    assert "beyond the end of the scale" in refusal("OL", "V", "V")
    assert "“> 5.1 V”" in refusal("OL", "V", "V", takes_bounds=True)


@pytest.mark.parametrize("text", ["65-70", "~5"])
def test_where_no_uncertainty_is_kept_none_is_asked_for(text):
    said = refusal(text, "V", "V", takes_spread=False)
    assert "±" not in said and "note" in said


@pytest.mark.parametrize("text", ["12/24 V", "5/9/12 V"])
def test_several_voltages_are_no_fraction(text):
    assert "fraction" not in refusal(text, "V", "V")


def test_two_units_are_not_added_up():
    assert "write its middle" in refusal("900 mA-1.2 A", "A", "A")


@pytest.mark.parametrize("text", ["2020-11-27", "1e-40 V"])
def test_a_date_and_an_exponent_are_no_range(text):
    assert "a range" not in refusal(text, "V", "V")


def test_a_range_of_many_digits_is_refused_like_any_other():
    assert "is a range" in refusal(f"{'9' * 40}-5", "V", "V")
