"""Bands are remembered by their numbers, not by the arrays that held them."""
import numpy as np

from teardowns.populations.kept_bands import MOST, _kept, kept_band


def test_the_same_numbers_give_the_band_that_is_known():
    x, y = np.geomspace(10, 100, 12), np.geomspace(5, 50, 12)
    assert kept_band(x, y) is kept_band(x.copy(), y.copy())


def test_one_other_number_gives_another_band():
    x, y = np.geomspace(10, 100, 12), np.geomspace(5, 50, 12)
    before = kept_band(x, y)
    y[0] = 6.0
    assert kept_band(x, y) != before


def test_no_more_are_kept_than_fit():
    for n in range(MOST + 5):
        kept_band(np.full(3, 1.0), np.full(3, 2.0 + n))
    assert len(_kept) <= MOST
