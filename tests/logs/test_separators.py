"""RFC 4180 for quoted cells; other separators than the comma are common practice, no source."""
import pytest

from teardowns.logs.refusals import RefusedLog
from teardowns.logs.separators import ONE_COLUMN, cells_of, lay_table, records_of, tables_of


@pytest.mark.parametrize(("line", "separator", "cells"), [
    ("a,b,c", ",", ("a", "b", "c")), (" 1 ; 2 ", ";", ("1", "2")), ("1\t\t2", "\t", ("1", "", "2")),
    ("  1   2\t3 ", " ", ("1", "2", "3")), ('"a,b",c', ",", ("a,b", "c")),
    ('"a ""b""",c', ",", ('a "b"', "c")), (' "1,5" ; "2"', ";", ("1,5", "2")),
    ('"a b" c', " ", ("a b", "c")), ("1,2,", ",", ("1", "2", "")), ("5,1", ONE_COLUMN, ("5,1",)),
])
def test_a_line_falls_into_its_cells(line, separator, cells):
    assert cells_of(line, separator) == cells


@pytest.mark.parametrize("line", ['1,"2', '1,"2"3,4'])
def test_quotes_that_do_not_close_are_refused(line):
    with pytest.raises(RefusedLog, match="quoted cell"):
        cells_of(line, ",")


def test_a_quoted_line_break_joins_lines_and_their_first_number_stays():
    records = records_of(['"Time', '(s)",V', "1,2", "", "3,4"])
    assert [(r.line, r.text) for r in records] == [(1, '"Time (s)",V'), (3, "1,2"), (5, "3,4")]


def test_an_inch_mark_does_not_swallow_the_rows_below_it():
    assert len(records_of(['Cable: 24"', "1,2", "3,4", "5,6", "7,8"])) == 5


def tables(*lines):
    return tables_of(records_of(lines))


@pytest.mark.parametrize(("lines", "separators"), [
    (("0,5;1,2", "1,5;1,3"), ";"), (("0,5\t1,2", "1,5\t1,3"), "\t"), (("0.5,1", "1.5,2"), ","),
    (("0,5 1,2", "1,5 1,3"), " "), (("1, 2, 3", "4, 5, 6"), ","),
    (("2026-03-04 12:00:00,5.1", "2026-03-04 12:00:01,5.2"), ","),
    (("01.02.2026 12:00:00;5,1", "01.02.2026 12:00:01;5,2"), ";"),
    (("5,1", "5,2"), "," + ONE_COLUMN), (("5.1", "5.2"), ONE_COLUMN), (("a", "b"), ""),
])
def test_the_rows_tell_their_separator_as_far_as_they_do(lines, separators):
    assert "".join(table.separator for table in tables(*lines)) == separators


def test_key_and_value_lines_are_no_rows_even_if_there_are_more_of_them():
    lines = [f"Setting {n};{n}" for n in "abcdefgh"] + [f"Key {n};{n}" for n in range(8)]
    table = tables(*lines, "t;V", "0,5;5,1", "1,5;5,2")[0]
    assert [row.line for row in table.rows] == [18, 19] and len(table.before) == 17


def test_headings_that_begin_with_figures_are_no_row():
    table = lay_table(records_of(["3.3V rail;5V rail", "3.28;5.01", "3.29;5.02"]), ";")
    assert table.rows[0].line == 2


def test_a_row_with_an_error_or_over_range_belongs_to_the_table():
    table = tables("t;V", "0;OL", "1;#DIV/0!", "2;5.1V", "3;5.1")[0]
    assert [row.line for row in table.rows] == [2, 3, 4, 5]
