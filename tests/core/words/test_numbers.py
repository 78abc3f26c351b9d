"""Numbers and dates in German: a decimal comma where a quantity stands, and only there."""
import pytest

from core.words.numbers import as_typed, is_measure, numbers_in

NARROW = "\u202f"


@pytest.mark.parametrize(("text", "german"), [
    ("13.1 W", "13,1 W"), (f"2.25{NARROW}A", f"2,25{NARROW}A"), ("4.7\u00a0µF", "4,7\u00a0µF"),
    ("6.20 ± 0.10 mm", "6,20 ± 0,10 mm"), (f"5.1{NARROW}±{NARROW}0.1{NARROW}V",
                                           f"5,1{NARROW}±{NARROW}0,1{NARROW}V"),
    ("0.95", "0,95"), ("−0.4 dB", "−0,4 dB"), ("plausibility = 0.02", "plausibility = 0,02"),
    ("(0.05)", "(0,05)"), ("12 345.6 W", "12 345,6 W"), ("1.5e-5 F", "1,5e-5 F"),
    ("1.28.", "1,28."), ("5.29\u202fEUR", "5,29\u202fEUR"), ("0.55 W/g", "0,55 W/g"),
    ("64.5 dBµV", "64,5 dBµV"), ("0.6 VA", "0,6 VA"),
])
def test_a_quantity_has_a_decimal_comma(text, german):
    assert numbers_in("de", text) == german


@pytest.mark.parametrize("text", [
    "USB 2.0", "IEC 62368-1", "IEC 62368-1, 5.4.2", "5.4.2.3.2.3", "rulebook 2026.11",
    "revision 3.2, version 1.1", "Table F.5", "192.168.0.1", "OpenMagnetics 1.7.35: N87",
])
def test_a_name_or_a_clause_keeps_its_point(text):
    assert numbers_in("de", text) == text


@pytest.mark.parametrize(("text", "german"), [
    ("13.1 to 16.7 W", "13,1 bis 16,7 W"), ("3 to 5 mm", "3 bis 5 mm"),
    ("5 mm to 5.8 mm", "5 mm bis 5,8 mm"),
    (f"5{NARROW}mm to 5.8{NARROW}mm", f"5{NARROW}mm bis 5,8{NARROW}mm"),
])
def test_a_range_reaches_to_its_end(text, german):
    assert numbers_in("de", text) == german


def test_a_way_from_one_thing_to_another_is_no_range():
    assert numbers_in("de", "layer 3 to ground") == "layer 3 to ground"


def test_a_date_is_written_as_the_language_does():
    assert numbers_in("de", "Seen on 3 March 2026.") == "Seen on 3. März 2026."
    assert numbers_in("de", "2026-03-14 09:30 UTC") == "2026-03-14 09:30 UTC"


def test_english_stays_as_it_is():
    for text in ("13.1 to 16.7 W", "3 March 2026", "0.95"):
        assert numbers_in("en", text) == text


@pytest.mark.parametrize("text", ["13.1 W", "13.1 to 16.7 W", "6.20 ± 0.10 mm", "20 V",
                                  "100 V × 0.2 A = 20 VA", "≤ 0.5 mA"])
def test_a_measure_is_numbers_and_units(text):
    assert is_measure(text)


@pytest.mark.parametrize("text", ["13.1 Watt", "a fuse", "W of input", "C1 marked 3"])
def test_what_has_a_word_is_no_measure(text):
    assert not is_measure(text)


def test_a_field_shows_a_number_as_it_is_typed():
    assert as_typed("4.7 µF", "de") == "4,7 µF" and as_typed("4.7 µF", "en") == "4.7 µF"
