"""The quick way gives the floats of the careful way; what is doubtful takes the careful one."""
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.logs.cells import number
from teardowns.logs.plain_numbers import plain_column, plain_table
from teardowns.logs.refusals import RefusedLog
from tests.logs.reading import laid_out

CELLS = st.text("0123456789.,+-eE \t", max_size=9)


@pytest.mark.parametrize("text", [
    "1,nan,3\n", "1,inf,3\n", "1,0x10,3\n", "1,1_000,3\n", "1,1e999,3\n", "1,1e-400,3\n",
    "1,٣,3\n", '1,"2",3\n', "1,2\n", "1,2,3,4\n", "1,2,3\n\n4,5,6\n", "\n1,2,3\n", ",,\n",
    "1,2,3\n1,2\n", "1,-,3\n", "1,1 2,3\n", "1,#,3\n", "1,1d5,3\n", "1," + "1" * 201 + ",3\n"])
def test_whatever_is_doubtful_is_left_to_the_careful_way(text):
    assert plain_table(text.encode(), laid_out()) is None


def test_plain_rows_are_read_with_blanks_as_missing():
    table = plain_table(b",2.5,\n3,,\n-1e3,+.5,6.\n", laid_out())
    expected = [[np.nan, 2.5, np.nan], [3.0, np.nan, np.nan], [-1000.0, 0.5, 6.0]]
    assert np.array_equal(table, expected, equal_nan=True)


def test_a_point_among_decimal_commas_is_doubtful():
    assert plain_table(b"1,5;2;3\n", laid_out(";", ",")).tolist() == [[1.5, 2.0, 3.0]]
    assert plain_table(b"1,5;2.500;3\n", laid_out(";", ",")) is None


def test_a_group_mark_is_doubtful():
    assert plain_table(b"1 500;2;3\n", laid_out(";", thousands=" ")) is None


@given(st.lists(CELLS, min_size=1, max_size=5), st.sampled_from(".,"), st.sampled_from(["", " "]))
def test_a_column_reads_as_its_cells_do(cells, decimal, thousands):
    layout = laid_out(";", decimal, thousands=thousands)
    column = plain_column(cells, layout)
    if column is not None:
        assert np.array_equal(column, [number(cell, layout) for cell in cells], equal_nan=True)


@given(st.lists(st.lists(CELLS, min_size=3, max_size=3), min_size=1, max_size=4),
       st.sampled_from(".,"), st.sampled_from([";", "\t"]))
def test_a_table_reads_as_its_cells_do(rows, decimal, separator):
    layout = laid_out(separator, decimal)
    text = "".join(separator.join(row) + "\n" for row in rows)
    table = plain_table(text.encode(), layout)
    if table is not None:
        expected = [[number(cell, layout) for cell in line.split(separator)[:3]]
                    for line in text.splitlines()]
        assert np.array_equal(table, expected, equal_nan=True)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_float_that_is_written_out_reads_back(value):
    layout = laid_out()
    try:
        expected = number(repr(value), layout)
    except RefusedLog:
        pytest.fail(f"{value!r} was refused")
    column = plain_column([repr(value)], layout)
    assert expected == value and (column is None or column.tolist() == [value])
