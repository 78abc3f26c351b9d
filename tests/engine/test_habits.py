"""Habits: the prior's curve, the fit to measured units, and when a fit is not made or not used."""
from xml.etree import ElementTree

import numpy as np
import pytest
from scipy.stats import t as student

from teardowns.engine import rulebook
from teardowns.engine.habits import Habit, LearnedHabit, ReferencedHabit, fit

PRIOR = Habit("g", ((25.0, 5.0), (100.0, 55.0)), 0.55)
RULE = rulebook.load()["power/mass_per_watt"]
SIZES = np.geomspace(20.0, 160.0, 15)


def powers(sizes, noise=0.2, seed=3):
    """0.1 W · (m / 1 g)^1.3, with normal noise in ln."""
    return 0.1 * sizes**1.3 * np.exp(np.random.default_rng(seed).normal(0, noise, len(sizes)))


def learned(**changed):
    return LearnedHabit(**{
        "unit": "g", "intercept": np.log(10.0), "slope": 1.3, "residual_sd": 0.3, "n": 15,
        "middle": np.log(50.0), "square": 6.0, "smallest": 20.0, "largest": 160.0} | changed)


@pytest.mark.parametrize("size, watts", [
    (25.0, 5.0), (100.0, 55.0), (50.0, 275**0.5),      # half way in ln: √(5 W · 55 W)
    (12.5, 2.5), (400.0, 220.0)])                      # beyond: in proportion
def test_the_curve_is_straight_in_ln_between_its_points_and_in_proportion_beyond(size, watts):
    assert PRIOR.power(np.array([size])) == pytest.approx([watts])
    assert PRIOR.spread(np.array([size])) == pytest.approx([0.55])


def test_one_point_is_a_constant_power_a_size():
    assert Habit("µF", ((1.5, 1.0),), 0.4).power(np.array([0.15, 30.0])) == pytest.approx([0.1, 20])


@pytest.mark.parametrize("habit", [PRIOR, learned()], ids=["prior", "fit"])
@pytest.mark.parametrize("size", [np.nan, 0.0, -1.0])
def test_a_size_that_is_unknown_or_not_positive_gives_no_power(habit, size):
    assert np.isnan(habit.power(np.array([size]))).all()


def test_a_fit_finds_the_law_that_made_the_units():
    sizes = np.geomspace(20, 160, 400)
    found = fit(RULE, sizes, powers(sizes))
    # sd of the slope: 0.2 / √Σ(x − m)² = 0.2 / √(400 · (ln 8)²/12) = 0.017
    assert found.slope == pytest.approx(1.3, abs=3 * 0.017)
    assert found.power(np.array([50.0])) == pytest.approx([0.1 * 50**1.3], rel=0.04)
    assert found.residual_sd == pytest.approx(0.2, rel=0.12)
    assert (found.n, found.smallest, found.largest) == (400, pytest.approx(20), pytest.approx(160))


def test_the_spread_is_the_normal_of_the_fits_95_percent_prediction_interval():
    # h = 1/15 + (ln 2)²/6 = 0.06667 + 0.08007; t(0.975, 13) = 2.1604 of the t table.
    expected = 2.1604 * 0.3 * (1 + 0.06667 + 0.08007) ** 0.5 / 1.96
    assert learned().spread(np.array([100.0])) == pytest.approx([expected], rel=1e-4)
    assert student.ppf(0.975, 13) == pytest.approx(2.1604, abs=1e-4)


def test_the_interval_covers_new_units_as_often_as_it_says():
    inside, rng = [], np.random.default_rng(8)
    for seed in range(120):
        found = fit(RULE, SIZES, powers(SIZES, seed=seed))
        new = np.exp(rng.uniform(np.log(20), np.log(160), 50))
        missed = np.log(powers(new, seed=10_000 + seed) / found.power(new))
        inside.append(np.abs(missed) <= 1.96 * found.spread(new))
    # Fits of 15 units vary: sd of the share about 0.06 / √120 = 0.006.
    assert np.mean(inside) == pytest.approx(0.95, abs=0.02)


def test_no_fit_is_sharper_than_ten_percent():
    found = fit(RULE, SIZES, 0.1 * SIZES**1.3)
    assert found.spread(SIZES) == pytest.approx(np.full(15, 0.10))


def test_a_few_wild_units_do_not_bend_the_habit():
    watts = powers(SIZES)
    watts[[2, 9]] *= 8
    clean, bent = fit(RULE, SIZES, powers(SIZES)), fit(RULE, SIZES, watts)
    assert bent.power(np.array([50.0])) == pytest.approx(clean.power(np.array([50.0])), rel=0.15)


@pytest.mark.parametrize("sizes, watts", [
    (SIZES[:11], powers(SIZES[:11])),                                  # eleven units
    (np.geomspace(20, 99, 30), powers(np.geomspace(20, 99, 30))),      # less than a factor of five
    (SIZES, powers(SIZES)[::-1]),                                      # more mass, less power
    ([], []),
], ids=["eleven", "alike", "no habit", "none"])
def test_without_enough_to_learn_from_the_prior_stays(sizes, watts):
    assert fit(RULE, sizes, watts) is None


def test_twelve_units_over_a_factor_of_five_are_enough():
    sizes = np.append(np.geomspace(20, 80, 11), 100.0)
    assert fit(RULE, sizes, powers(sizes)).n == 12


@pytest.mark.parametrize("gap", [np.nan, 0.0, -5.0, np.inf])
def test_a_unit_without_its_size_or_power_is_left_out(gap):
    sizes, watts = np.append(SIZES, [gap, 50.0]), np.append(powers(SIZES), [10.0, gap])
    assert fit(RULE, sizes, watts) == fit(RULE, SIZES, powers(SIZES))


def test_the_order_of_the_units_moves_no_bit():
    order = np.random.default_rng(1).permutation(15)
    assert fit(RULE, SIZES[order], powers(SIZES)[order]) == fit(RULE, SIZES, powers(SIZES))


@pytest.mark.parametrize("size, reached", [
    (9.99, False), (10.0, True), (50.0, True), (320.0, True), (321.0, False), (np.nan, False)])
def test_beyond_twice_its_range_the_prior_speaks(size, reached):
    one, both = np.array([size]), ReferencedHabit(learned(), PRIOR)
    source = learned() if reached else PRIOR
    assert both.power(one) == pytest.approx(source.power(one), nan_ok=True)
    assert both.spread(one) == pytest.approx(source.spread(one), nan_ok=True)


def test_one_gives_the_bits_of_many():
    sizes, both = np.geomspace(1, 2000, 777), ReferencedHabit(learned(), PRIOR)
    power, spread = both.power(sizes), both.spread(sizes)
    for i in (0, 300, 776):
        assert both.power(sizes[[i]]).tobytes() == power[[i]].tobytes()
        assert both.spread(sizes[[i]]).tobytes() == spread[[i]].tobytes()


@pytest.mark.parametrize("formula, words", [
    (PRIOR.formula, ("5 W", "25 g", "1.73")),                          # ln 11 / ln 4 = 1.730
    (Habit("µF", ((1.5, 1.0),), 0.4).formula, ("1 W", "1.5 µF", "1")),
    (learned().formula("<mi>m</mi>"), ("10 W", "50 g", "1.3"))])
def test_the_formula_prints_the_curve(formula, words):
    assert ElementTree.fromstring(formula).tag == "math"
    assert all(f">{text}<" in formula for text in words)
