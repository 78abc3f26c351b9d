"""Quantiles and bins."""
import numpy as np
import pytest

from teardowns.populations.spread import bins, number_of_bins, spread


def test_the_quartiles_of_nine_values():
    # Hyndman and Fan 1996, definition 7: h = 8p + 1, so they are the 3rd, 5th and 7th value.
    found = spread(np.array([9.0, 1, 8, 2, 7, 3, 6, 4, 5]))
    assert (found.quarter, found.median, found.three_quarters) == (3, 5, 7)
    assert found.n == 9


def test_between_two_values_it_is_interpolated():
    # Ten values 1 to 10: h = 9 · 0.25 + 1 = 3.25.
    assert spread(np.arange(1.0, 11)).quarter == pytest.approx(3.25)


def test_few_units_have_no_quarters_and_a_few_more_no_twentieths():
    few, more, many = (spread(np.arange(1.0, n + 1)) for n in (7, 8, 41))
    assert np.isnan([few.quarter, few.median, few.three_quarters]).all()
    assert more.median == 4.5 and np.isnan([more.twentieth, more.nineteen]).all()
    assert (many.twentieth, many.nineteen) == (3, 39)          # h = 40 · 0.05 + 1


def test_unknown_values_are_left_out():
    assert spread(np.array([np.nan, 2.0])).n == 1
    nobody = spread(np.full(3, np.nan))
    assert nobody.n == 0 and np.isnan(nobody.median)


def test_bins_are_equal_in_the_logarithm():
    values = np.array([1.0, 9.9, 10.1, 99.0, 100.0])
    assert bins(values, 1.0, 100.0, 2).tolist() == [0, 0, 1, 1, 1]


def test_what_lies_beyond_an_end_is_counted_there_and_the_unknown_nowhere():
    values = np.array([0.0, 0.5, 200.0, np.nan])
    assert bins(values, 1.0, 100.0, 4).tolist() == [0, 0, 3, -1]


def test_a_decade_has_twenty_bins():
    assert number_of_bins(0.1, 10.0) == 40
