"""Readings worked out by hand; forms and prefixes after the SI Brochure, 9th ed., 3 and 5.4."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.reading.quantity import QuantityError, print_quantity, read_quantity

# text, unit, value in SI
VALUES = [
    ("4.7 µF", "F", 4.7e-6),
    ("4.7 μF", "F", 4.7e-6),  # Greek mu instead of the micro sign
    ("4.7uF", "F", 4.7e-6),
    ("4u7", "F", 4.7e-6),  # IEC 60062: the letter is the decimal point
    ("n47", "F", 0.47e-9),
    ("0,25 mm", "m", 0.25e-3),
    ("0,250 mm", "m", 0.25e-3),  # a leading zero leaves no room for a thousands separator
    ("4k7", "Ω", 4700.0),
    ("4K7", "Ω", 4700.0),
    ("0R22", "Ω", 0.22),
    ("R47", "Ω", 0.47),
    ("1.5k", "Ω", 1500.0),
    ("2R2", "Ω", 2.2),  # two digits may also end a unit, as in mm2: the letter comes first
    ("1G2", "Ω", 1.2e9),
    ("100r", "Ω", 100.0),
    ("33L", "Ω", 0.033),  # IEC 60062: L for milliohm, from memory
    ("2u2", "F", 2.2e-6),
    ("100n", "F", 100e-9),
    ("4n7", "F", 4.7e-9),
    ("1m2", "H", 1.2e-3),
    ("2A4", "A", 2.4),
    ("7W5", "W", 7.5),
    ("1M5", "Hz", 1.5e6),
    ("6m2", "m²", 6.0),
    ("3u3", "s", 3.3e-6),
    ("10 ohm", "Ω", 10.0),
    ("90 min", "s", 5400.0),
    ("1.5 h", "s", 5400.0),
    ("1h30", "s", 5400.0),
    ("2 h 5 min", "s", 7500.0),
    ("1h30m", "s", 5400.0),
    ("1:30 h", "s", 5400.0),
    ("1:30 min", "s", 90.0),
    ("0:30:00", "s", 1800.0),
    ("30 mins", "s", 1800.0),
    ("2 Stunden", "s", 7200.0),
    ("5 volts", "V", 5.0),
    ("2 Arms", "A", 2.0),
    ("12 grams", "kg", 0.012),
    ("5e-3 V", "V", 5e-3),  # an exponent, and no range
    ("65 kHz", "Hz", 65e3),
    ("65k", "Hz", 65e3),
    ("5V1", "V", 5.1),
    ("42 g", "kg", 0.042),
    ("350 mg", "kg", 350e-6),
    ("23.3 mm²", "m²", 23.3e-6),
    ("1.5 cm3", "m³", 1.5e-6),
    ("310 mT", "T", 0.310),
    ("−5 °C", "°C", -5.0),
    ("71 ℃", "°C", 71.0),
    ("87 %", "1", 0.87),
    ("87 %", "%", 87.0),
    ("0.87", "1", 0.87),
    ("1.5e-3 V", "V", 1.5e-3),
    (" 12\u202fV ", "V", 12.0),
    ("1234,567 V", "V", 1234.567),
    ("230 V~", "V", 230.0),
    ("275VAC", "V", 275.0),
    ("5 V DC", "V", 5.0),
    ("240 Vrms", "V", 240.0),
]


@pytest.mark.parametrize(("text", "unit", "value"), VALUES)
def test_a_value_is_read_in_si(text, unit, value):
    assert read_quantity(text, unit).value == value


SPREADS = [
    # 0.5 % of 5.1 V is 0.0255 V
    ("5.1 V ± 0.5 %", "V", 5.1, 0.0255, "tolerance"),
    ("4k7 ±5%", "Ω", 4700.0, 235.0, "tolerance"),
    ("5.1 ± 0.2 V", "V", 5.1, 0.2, "interval"),
    ("5.1 V +/- 200 mV", "V", 5.1, 0.2, "interval"),
    ("(15.2 ± 0.3) µF", "F", 15.2e-6, 0.3e-6, "interval"),
    ("87 ± 2 %", "%", 87.0, 2.0, "interval"),
    # JCGM 100:2008, 7.2.2: the bracket is the standard uncertainty in the last digits
    ("100.02147(35) g", "kg", 0.10002147, 0.35e-6, "standard"),
    ("10(1) mm", "m", 0.010, 0.001, "standard"),
]


@pytest.mark.parametrize(("text", "unit", "value", "spread", "kind"), SPREADS)
def test_an_uncertainty_is_read_with_its_kind(text, unit, value, spread, kind):
    reading = read_quantity(text, unit)
    assert (reading.value, reading.uncertainty_kind) == (value, kind)
    assert reading.uncertainty == pytest.approx(spread, rel=1e-12)


def test_a_bare_number_takes_the_unit_of_the_field():
    assert read_quantity("15.2", "F", default_unit="µF").value == 15.2e-6
    assert read_quantity("15.2 ± 0.3", "F", default_unit="µF").uncertainty == 0.3e-6


def test_a_written_unit_wins_over_that_of_the_field():
    assert read_quantity("15.2 nF", "F", default_unit="µF").value == 15.2e-9


def test_a_value_without_uncertainty_says_so():
    reading = read_quantity("5 V", "V")
    assert (reading.uncertainty, reading.uncertainty_kind) == (None, None)


REFUSED = [
    ("", "V", "Nothing is written"),
    ("5", "V", "no unit"),
    ("5 A", "V", "not a unit of this field"),
    ("5 m", "s", "min"),  # milli or minutes: neither
    ("1_000 V", "V", "underscores"),
    ("٣ V", "V", "digits 0 to 9"),
    ("５ V", "V", "digits 0 to 9"),
    ("nan", "V", "no number"),
    ("inf V", "V", "no number"),
    ("1e999 V", "V", "exponent"),
    ("1e-999 V", "V", "exponent"),
    ("2*3 V", "V", "one number"),
    ("2+3 V", "V", "one number"),
    ("__import__('os')", "V", "underscores"),
    ("1 000 V", "V", "spaces"),
    ("1,234.5 V", "V", "thousands"),
    ("1.2.3 V", "V", "decimal mark"),
    ("5 1", "1", "spaces"),
    ("5 ± V", "V", "no number"),
    ("5 ± 0 V", "V", "greater than zero"),
    ("5 ± -1 V", "V", "greater than zero"),
    ("10(0) mm", "m", "greater than zero"),
    ("10(1) ± 2 mm", "m", "twice"),
    ("87 % ± 2 %", "%", "percentage points"),
    ("4u7 µF", "F", "twice"),
    ("4u7", "m", "does not fit"),
    ("5m2", "s", "not a unit of this field"),
    ("1h75", "s", "does not fit"),
    ("4k7J", "Ω", "“J” in “4k7J” is not a unit"),
    ("9" * 65, "1", "longer than 64"),
]


@pytest.mark.parametrize(("text", "unit", "words"), REFUSED)
def test_bad_text_is_refused_in_words_that_help(text, unit, words):
    with pytest.raises(QuantityError, match="(?i)" + words.replace("(", r"\(")):
        read_quantity(text, unit, default_unit=None)


def test_a_comma_before_three_digits_names_both_readings():
    with pytest.raises(QuantityError) as raised:
        read_quantity("1,000 V", "V")
    assert "1000" in raised.value.message
    assert "1.000" in raised.value.message


def test_an_error_shows_an_example_of_the_field():
    with pytest.raises(QuantityError, match="for example “4.7 µF”"):
        read_quantity("much", "F")


UNITS = ["V", "A", "W", "F", "H", "Hz", "Ω", "m", "m²", "m³", "kg", "s", "T", "J", "°C", "%", "1"]
VALUES_DRAWN = st.floats(1e-9, 1e8) | st.floats(-1e8, -1e-9)


@given(VALUES_DRAWN, st.sampled_from(UNITS))
def test_a_printed_value_reads_back_within_its_rounding(value, unit):
    printed = print_quantity(value, unit, digits=4)
    # half a unit of the fourth digit is at most 0.05 % of the value
    assert read_quantity(printed, unit).value == pytest.approx(value, rel=5.01e-4)


@given(VALUES_DRAWN, st.sampled_from(UNITS), st.floats(1e-3, 0.3))
def test_a_printed_uncertainty_reads_back_within_its_rounding(value, unit, relative):
    spread = abs(value) * relative
    reading = read_quantity(print_quantity(value, unit, uncertainty=spread), unit)
    # one digit of 2…9 is off by at most a quarter, two digits of 10…19 by at most 5 %
    assert reading.uncertainty == pytest.approx(spread, rel=0.26)
    # half a unit of the last digit: of 9.76, printed as 10 of the next one up, 0.512
    assert abs(reading.value - value) <= 0.53 * spread


@given(st.text(max_size=80), st.sampled_from(UNITS))
def test_any_text_gives_a_reading_or_a_quantity_error(text, unit):
    try:
        reading = read_quantity(text, unit, default_unit=None)
    except QuantityError as error:
        assert error.message
    else:
        assert reading.text == text


def test_a_scope_writes_peak_to_peak_into_its_unit():
    read = read_quantity("120 mVpp ± 5 mV", "V", peak_to_peak=True)
    assert (read.value, read.uncertainty) == (0.12, 0.005)
    with pytest.raises(QuantityError, match="“650 Vpp” is peak to peak"):
        read_quantity("650 Vpp", "V")
