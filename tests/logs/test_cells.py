import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.logs.cells import number, seconds
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.refusals import RefusedLog


def layout(decimal=".", thousands="", **told):
    return Layout("utf-8", ";", decimal, 1, told.pop("columns", ()), thousands, **told)


@pytest.mark.parametrize(("cell", "decimal", "thousands", "value"), [
    ("5.12", ".", "", 5.12), ("-0.5", ".", "", -0.5), ("+3", ".", "", 3.0), (".5", ".", "", 0.5),
    ("5.", ".", "", 5.0), ("1.5E-03", ".", "", 0.0015), ("0e-400", ".", "", 0.0),
    ("5,12", ",", "", 5.12), ("1,234.5", ".", ",", 1234.5), ("1.234.567,5", ",", ".", 1234567.5),
    ("1 234,5", ",", " ", 1234.5), ("1\u202f234,5", ",", " ", 1234.5),
    ("1\u2019234.5", ".", "'", 1234.5), ("\u00a05.1 ", ".", "", 5.1), ("999", ".", ",", 999.0),
    ("12345", ".", ",", 12345.0),
])
def test_a_cell_reads_as_it_is_written(cell, decimal, thousands, value):
    assert number(cell, layout(decimal, thousands)) == value


@pytest.mark.parametrize("cell", ["", "   ", "\t", "\u00a0", "--", "-----"])
def test_a_blank_or_a_run_of_dashes_is_missing_and_never_zero(cell):
    assert math.isnan(number(cell, layout()))
    assert math.isnan(seconds(cell, layout()))


@pytest.mark.parametrize(("cell", "code"), [
    ("NaN", "not_a_number"), ("inf", "not_a_number"), ("-Infinity", "not_a_number"),
    ("n/a", "not_a_number"), ("1e999", "too_large"), ("-1e999", "too_large"),
    ("1e-400", "too_small"), ("1_000", "digit_underscore"), ("0x10", "hexadecimal"),
    ("٣٫٥", "other_digits"), ("１２", "other_digits"), ("5²", "other_digits"),
    ("\u22125.1", "minus_sign"), ("#DIV/0!", "spreadsheet_error"), ("#REF!", "spreadsheet_error"),
    ("05-Jan", "spreadsheet_date"), ("Jan-05", "spreadsheet_date"),
    ("03/04/2026", "spreadsheet_date"), ("5.1V", "unit_inside"),
    ("12 %", "unit_inside"), ("OL", "over_range"), ("O.L", "over_range"),
    ("overload", "over_range"),
    ("5,1", "decimal_mark"), ("1,234", "decimal_mark"), ("1.2.3", "decimal_mark"),
    ("1 234", "decimal_mark"), ("-", "text"), ("1e", "text"), ("5.1\x00", "text"), ("ok", "text"),
    ("=1+1", "text"), ("1e5.5", "text"), ("--5", "text"), ("1 " * 5000 + "x", "decimal_mark"),
])
def test_what_is_no_plain_number_is_refused(cell, code):
    with pytest.raises(RefusedLog) as refused:
        number(cell, layout())
    assert refused.value.code == code and refused.value.line is None


@pytest.mark.parametrize("cell", ["1,23", "12,34", "1,2345", "0,123", ",123", "1234,567", "1,234,5",
                                  "1,,234", "1.5,000"])
def test_thousands_stand_in_groups_of_three_only(cell):
    with pytest.raises(RefusedLog, match="does not fit"):
        number(cell, layout(".", ","))


def test_a_refusal_shows_the_cell_shortened_and_without_controls():
    with pytest.raises(RefusedLog) as refused:
        number("a\x1b[31m" + "b" * 100, layout())
    assert "\x1b" not in str(refused.value) and len(str(refused.value)) < 120


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_finite_float_reads_back_bit_for_bit(value):
    assert number(repr(value), layout()) == value
    assert number(repr(value).replace(".", ","), layout(",")) == value


@given(st.text(max_size=12))
def test_any_text_is_a_finite_number_missing_or_refused(text):
    try:
        value = number(text, layout())
    except RefusedLog:
        return
    assert math.isfinite(value) or not text.strip(" \t\u00a0\u202f\u2009-")


def test_a_clock_follows_the_order_and_the_unit_of_its_layout():
    # 4 March 2026, 00:00:01: 26 years of 365 days, 7 leap days (2000 to 2024), 31 + 28 + 3 days.
    day = 26 * 365 + 7 + 31 + 28 + 3
    assert seconds("04/03/2026 00:00:01", layout(date_order="dmy")) == day * 86400 + 1
    minutes = (LogColumn(0, "Time", "time", "min"),)
    assert seconds("03:04", layout(columns=minutes)) == 3 * 60 + 4
    assert seconds("03:04", layout()) == 3 * 3600 + 4 * 60
