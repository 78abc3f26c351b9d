"""The grid against plain numerical integration of the same likelihoods."""
from itertools import product

import numpy as np
import pytest

from teardowns.engine.likelihoods import log_limit, log_passed
from teardowns.engine.lines import Line
from teardowns.engine.posterior import (
    LogEvidence,
    density,
    hypothesis_weights,
    make_grid,
    odds,
    quantiles,
)
from teardowns.engine.rule import FAILED, LIMIT, PASSED, Rule

CLAIM, UNIT = np.array([12.0]), np.array([0])
MARGIN = 0.45


def line(value, sigma, kind=LIMIT, shift=0.0, other=0.0):
    """One line; shift, other : what one standard uncertainty of each shared quantity moves."""
    rule = Rule(f"power/{kind}", kind, "power", "X", (), None, "s", "v", "f", 0.04, MARGIN)
    u = np.sqrt(sigma**2 + shift**2 + other**2)
    return Line(rule, np.array([0]), np.array([value]), np.array([sigma]), np.array([u]),
                np.array([[shift], [other]]), np.zeros((0, 1)), np.zeros(1), np.zeros(1),
                np.array([[0.0], [1.0]]), np.array([0]))


def judged(*lines):
    grid = make_grid(UNIT, CLAIM, CLAIM, [lines])
    evidence = LogEvidence(grid, lines, UNIT)
    weights = hypothesis_weights(grid, np.array([0]), CLAIM)
    return grid, evidence, float(odds(density(evidence.total), np.array([0]), weights)[0])


def integrated(log):
    """Odds by a fine sum over each hypothesis, a fifth of it beyond the usual range."""
    near, beyond, unmet, below = (
        np.exp(log(np.linspace(np.log(a * 12), np.log(b * 12), 200_001))).mean()
        for a, b in ((0.95, 1.6), (1.6, 1000), (1 / 12, 0.95), (1 / 1000, 1 / 12)))
    return (0.8 * near + 0.2 * beyond) / (0.8 * unmet + 0.2 * below)


@pytest.mark.parametrize("value", [5.0, 9.0, 12.0, 20.0])
def test_odds_of_one_limit(value):
    _, _, found = judged(line(value, 0.15))
    expected = integrated(lambda x: log_limit(np.log(value) - x, 0.15, MARGIN))
    assert 10 * np.log10(found / expected) == pytest.approx(0, abs=0.25)      # decibans


def test_odds_of_two_lines_are_those_of_their_product():
    _, _, found = judged(line(15.0, 0.15), line(11.0, 0.05, PASSED))
    assert found == pytest.approx(integrated(
        lambda x: log_limit(np.log(15) - x, 0.15, MARGIN) + log_passed(np.log(11) - x, 0.05)),
        rel=0.02)


@pytest.mark.parametrize("load", [18.0, 24.0, 60.0])
def test_a_load_far_above_the_claim_supports_it(load):
    assert judged(line(load, 0.02, PASSED))[2] > 1000


# What lies below c/1000 was once the difference of two equal integrals: the claim was believed.
@pytest.mark.parametrize("lines", [
    (line(0.1, 0.05), line(0.1, 0.05)), (line(0.002, 0.04), line(0.01, 0.01, FAILED)),
    (line(0.02, 0.04), line(0.02, 0.04))])
def test_limits_far_below_a_claim_refute_it(lines):
    assert judged(*lines)[2] < 1e-4


@pytest.mark.parametrize("lines", [(line(0.01, 0.05), line(0.01, 0.05)), (line(0.001, 0.04),)])
def test_a_limit_that_no_charger_has_is_a_slip_and_supports_nothing(lines):
    assert 0.3 < judged(*lines)[2] < 1


def test_one_limit_far_below_a_claim_is_outweighed_by_three_that_carry_it():
    # 20 W of parts and one reading a tenth of it, for a claim of 12 W.
    rest = [line(20.0, 0.15), line(18.0, 0.15), line(16.0, 0.15)]
    alone, beside = judged(line(1.6, 0.15))[2], judged(line(1.6, 0.15), *rest)[2]
    assert alone < 0.01 and beside > 0.1


@pytest.mark.parametrize("claim", [12.0, 12e-5, 12e5])      # within, far below, far above the grid
def test_each_hypothesis_weighs_one_and_nothing_in_it_counts_against_it(claim):
    grid = make_grid(UNIT, CLAIM, CLAIM, [(line(12e-4, 0.1), line(12e4, 0.1))])
    weights = hypothesis_weights(grid, np.array([0]), np.array([claim]))
    assert (weights >= 0).all()
    # one part in 10⁶ more where the grid reaches beyond c/1000 or 1000 c
    np.testing.assert_allclose(weights.sum(axis=-1), 1.0, rtol=1e-4)


def test_a_load_held_far_beyond_the_range_supports_a_claim():
    assert judged(line(12e5, 0.02, PASSED))[2] > 1000


def test_cases_of_one_unit_share_a_grid():
    unit = np.array([0, 0, 1])
    grid = make_grid(unit, np.array([5.0, 20.0, 9.0]), np.array([5.0, 20.0, 9.0]), [])
    x = np.exp(grid.points())
    assert x[0, 0] == pytest.approx(5 / 12) and x[0, -1] == pytest.approx(20 * 1.6)
    assert (x[0] == x[1]).all() and x[2, 0] == pytest.approx(9 / 12)


def test_a_case_without_a_claim_keeps_to_the_claims_of_its_unit():
    nothing = np.array([np.nan, 20.0])
    x = np.exp(make_grid(np.zeros(2, int), nothing, nothing, []).points())
    assert x[0, 0] == pytest.approx(20 / 12)


def test_no_line_leaves_even_odds():
    _, _, found = judged()
    assert found == pytest.approx(1.0)


FINE = np.polynomial.hermite_e.hermegauss(40)        # NumPy's Gauss nodes


@pytest.mark.parametrize("value, shift, other", [
    ((10.0, 11.0), 0.06, 0.0), ((12.0, 30.0), 0.12, 0.0), ((10.0, 14.0), 0.06, 0.15),
    ((9.0, 10.0), 0.08, 0.15)])
def test_shared_quantities_are_integrated_jointly(value, shift, other):
    def log(x):
        total = np.zeros_like(x)
        for (z, w), (y, v) in product(zip(*FINE, strict=True), repeat=2):
            total += w * v * np.exp(sum(
                log_limit(np.log(each) + shift * z + other * y - x, 0.1, MARGIN)
                for each in value))
        return np.log(total / FINE[1].sum() ** 2)

    _, _, found = judged(*(line(v, 0.1, shift=shift, other=other) for v in value))
    x = np.linspace(np.log(12 / 1000), np.log(12000), 4001)
    curve = log(x)
    expected = integrated(lambda at: np.interp(at, x, curve))
    decibans = 10 * np.log10([found, expected])
    assert decibans[0] == pytest.approx(decibans[1], abs=0.2, rel=0.08)


def test_shared_lines_say_less_together_than_independent_ones():
    apart = judged(line(9.0, np.hypot(0.05, 0.2)), line(9.0, np.hypot(0.05, 0.2)))[2]
    together = judged(line(9.0, 0.05, shift=0.2), line(9.0, 0.05, shift=0.2))[2]
    assert apart < together < 1


@pytest.mark.parametrize("lines", [
    (line(10.0, 0.1), line(14.0, 0.2)),
    (line(10.0, 0.1, shift=0.05), line(14.0, 0.2, shift=0.05)),
    (line(10.0, 0.1, shift=0.05), line(14.0, 0.2)),
])
def test_leaving_a_line_out_is_as_if_it_did_not_exist(lines):
    grid = make_grid(UNIT, CLAIM, CLAIM, [lines])
    without = LogEvidence(grid, lines, UNIT).without(0)
    # The one that stays has all of its uncertainty as its own again.
    alone = LogEvidence(grid, lines[1:], UNIT).total
    np.testing.assert_allclose(density(without), density(alone), atol=0.01)


def test_quantiles_of_a_flat_posterior_are_even_in_the_logarithm():
    grid = make_grid(UNIT, CLAIM, CLAIM, [])
    median, low, high = quantiles(grid, np.ones((1, grid.points().shape[1])))[0]
    span = np.log(1.6 * 12)                                  # from c/12 to 1.6 c
    for value, share in ((median, 0.5), (low, 0.05), (high, 0.95)):
        assert np.log(value / (12 / 12)) / span == pytest.approx(share, abs=1e-9)


def test_the_grid_reaches_beyond_claims_and_lines():
    x = np.exp(make_grid(UNIT, CLAIM, CLAIM, [(line(100.0, 0.1), line(0.3, 0.1))]).points())
    assert x[0, 0] == pytest.approx(0.1) and x[0, -1] == pytest.approx(160.0)


def test_a_unit_without_claims_has_a_grid_of_its_own():
    nothing = np.array([np.nan])
    x = np.exp(make_grid(UNIT, nothing, nothing, []).points())
    assert (x[0, 0], x[0, -1]) == pytest.approx((0.2, 300.0))
