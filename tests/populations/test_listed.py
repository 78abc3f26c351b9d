"""Columns of public units, and how they take a change in."""
import numpy as np

from teardowns.populations.listed import COLUMNS, ListedNumbers


def row(pk, mass=None):
    return (pk, *(mass if name == "mass" else None for name in COLUMNS))


def test_rows_stand_in_the_order_of_their_keys_and_none_is_unknown():
    numbers = ListedNumbers.of_rows([row(7), row(3, 0.05)])
    assert numbers.pks.tolist() == [3, 7]
    assert numbers["mass"][0] == 0.05 and np.isnan(numbers["mass"][1])


def test_no_rows_are_columns_of_nothing():
    numbers = ListedNumbers.of_rows([])
    assert numbers["mass"].shape == (0,) and numbers.place(3) is None


def test_a_change_replaces_adds_and_takes_away():
    numbers = ListedNumbers.of_rows([row(3, 0.05), row(5, 0.06), row(7, 0.07)])
    after = numbers.with_changes([5, 7, 6], [row(6, 0.1), row(5, 0.2)])
    assert after.pks.tolist() == [3, 5, 6]
    assert after["mass"].tolist() == [0.05, 0.2, 0.1]
    assert numbers.pks.tolist() == [3, 5, 7]


def test_a_unit_is_found_by_its_key():
    numbers = ListedNumbers.of_rows([row(3), row(7)])
    assert (numbers.place(7), numbers.place(4), numbers.place(9), numbers.place(None)) == (
        1, None, None, None)
    assert numbers.among([7, 8]).tolist() == [False, True]
