"""Boxes and masses: within what verified chargers weigh and measure."""
import numpy as np
import pytest

from .case import Case
from .chargers import draw_chargers
from .habits import USUAL, Habits


def specific_powers(habits, brackets):
    """W/g and W/cm³, the median of each bracket of power."""
    c = draw_chargers(1500, np.random.default_rng(5), habits)
    power = c.everywhere()
    for low, high, *_ in brackets:
        of = (power > low) & (power < high)
        yield (np.median((power / c.mass)[of]) * 1e-3,
               np.median((power / c.case.volume)[of]) * 1e-6)


def test_watts_a_gram_and_a_cubic_centimetre():
    # priors handed down, median and coefficient of variation: 0.20 (0.4) W/g to 7 W, 0.28 (0.35)
    # to 15 W, 0.40 (0.3) to 30 W; 0.25, 0.4 and 0.7 W/cm³ (0.4)
    brackets = ((4, 7, 0.20, 0.25), (10, 15, 0.28, 0.4), (18, 30, 0.40, 0.7))
    for (*_, gram, cube), (by_mass, by_volume) in zip(
            brackets, specific_powers(USUAL, brackets), strict=True):
        assert by_mass == pytest.approx(gram, rel=0.15)
        assert by_volume == pytest.approx(cube, rel=0.4)


def test_heavier_habits_make_heavier_units():
    (heavy,), (usual,) = (specific_powers(habits, [(10, 30)])
                          for habits in (Habits(weight=1.5), USUAL))
    assert heavy[0] < 0.9 * usual[0]


def test_sides_make_the_area():
    case = Case(np.array([0.0123]), 1.0, 1.0, 1.0, np.array([[1.0, 0.8, 0.5]]))
    a, b, c = case.sides[0]
    assert 2 * (a * b + b * c + c * a) == pytest.approx(0.0123)
    assert (b / a, c / a) == pytest.approx((0.8, 0.5))
