"""Reading a table of a standard: by steps, between its rows, beyond it."""
import numpy as np

from teardowns.engine.requirements.table import Table, interpolated, looked_up, rounded_up, step_up

NAN = float("nan")
LIMITS, VALUES = np.array([10.0, 20.0, 40.0]), np.array([1.0, 2.0, 3.0])
TABLE = Table("A table", ("V up to", "mm", "mm"), ((10, 1, 5), (20, 2, 6), (40, 3, 8)), "", "A")


def test_a_step_takes_the_row_that_is_not_below():
    found = step_up(LIMITS, VALUES, [1.0, 10.0, 10.1, 40.0, 40.1, NAN])
    np.testing.assert_array_equal(found, [1.0, 1.0, 2.0, 3.0, NAN, NAN])


def test_between_rows_the_way_is_straight_and_below_the_first_row_it_holds():
    # 15 lies half way from 1 to 2, 25 a quarter of the way from 2 to 3.
    value, is_row, above = interpolated(LIMITS, VALUES, [5.0, 15.0, 20.0, 25.0, 41.0, NAN])
    np.testing.assert_array_equal(value, [1.0, 1.5, 2.0, 2.25, NAN, NAN])
    assert is_row.tolist() == [True, False, True, False, False, False]
    np.testing.assert_array_equal(above, [2.0, 2.0, 2.0, 3.0, NAN, NAN])


def test_each_entry_is_looked_up_in_its_own_column():
    value, is_row, _ = looked_up(TABLE, np.array([1, 2, 2]), np.array([15.0, 20.0, 30.0]))
    assert value.tolist() == [1.5, 6.0, 7.0] and is_row.tolist() == [False, True, False]


def test_what_is_a_step_already_is_not_rounded_up():
    # 3 · 0.1 is 0.30000000000000004 to a computer, and 0.3 to a table.
    assert rounded_up(3 * 0.1, 0.1) == 0.3
    assert rounded_up([0.31, 0.4, 2.81], 0.1).tolist() == [0.4, 0.4, 2.9]
    assert np.isnan(rounded_up(NAN, 0.1))
