"""The grid against plain numerical integration of the same likelihoods."""
import numpy as np
import pytest

from teardowns.engine.likelihoods import log_limit, log_passed
from teardowns.engine.lines import NODE_WEIGHTS, NODES, Line
from teardowns.engine.posterior import (
    LogEvidence,
    density,
    hypothesis_edges,
    make_grid,
    odds,
    quantiles,
)
from teardowns.engine.rule import LIMIT, PASSED, Rule

CLAIM = np.array([12.0])
MARGIN = 0.45


def line(value, sigma, kind=LIMIT, shift=None):
    rule = Rule(f"power/{kind}", kind, "power", "X", (), None, "s", "v", "f", 0.04, MARGIN)
    u = sigma if shift is None else np.hypot(sigma, shift)
    shifts = None if shift is None else shift * NODES.T
    return Line(rule, np.array([0]), np.array([value]), np.array([sigma]), np.array([u]), shifts,
                np.zeros((0, 1)))


def judged(*lines):
    grid = make_grid(CLAIM, CLAIM, [lines])
    evidence = LogEvidence(grid, lines)
    weights = hypothesis_edges(grid, np.array([0]), CLAIM)
    return grid, evidence, float(odds(density(evidence.total), np.array([0]), weights)[0])


def integrated(log):
    """Odds by a fine sum over each hypothesis, a fifth of it beyond the usual range."""
    near, beyond, unmet, below = (
        np.exp(log(np.linspace(np.log(a * 12), np.log(b * 12), 200_001))).mean()
        for a, b in ((0.95, 1.6), (1.6, 1000), (1 / 30, 0.95), (1 / 1000, 1 / 30)))
    return (0.8 * near + 0.2 * beyond) / (0.8 * unmet + 0.2 * below)


@pytest.mark.parametrize("value", [5.0, 9.0, 12.0, 20.0])
def test_odds_of_one_limit(value):
    _, _, found = judged(line(value, 0.15))
    expected = integrated(lambda x: log_limit(np.log(value) - x, 0.15, MARGIN))
    assert 10 * np.log10(found / expected) == pytest.approx(0, abs=0.2)      # decibans


def test_odds_of_two_lines_are_those_of_their_product():
    _, _, found = judged(line(15.0, 0.15), line(11.0, 0.05, PASSED))
    assert found == pytest.approx(integrated(
        lambda x: log_limit(np.log(15) - x, 0.15, MARGIN) + log_passed(np.log(11) - x, 0.05)),
        rel=0.02)


@pytest.mark.parametrize("load", [18.0, 24.0, 60.0])
def test_a_load_far_above_the_claim_supports_it(load):
    assert judged(line(load, 0.02, PASSED))[2] > 1000


def test_no_line_leaves_even_odds():
    _, _, found = judged()
    assert found == pytest.approx(1.0)


@pytest.mark.parametrize("value, shift", [((10.0, 11.0), 0.06), ((12.0, 30.0), 0.12)])
def test_a_shared_quantity_is_integrated_jointly(value, shift):
    def log(x):
        total = sum(w * np.exp(sum(log_limit(np.log(v) + shift * z - x, 0.1, MARGIN)
                                   for v in value))
                    for w, (z,) in zip(NODE_WEIGHTS, NODES, strict=True))
        return np.log(total)

    _, _, found = judged(*(line(v, 0.1, shift=shift) for v in value))
    assert found == pytest.approx(integrated(log), rel=0.01)


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
    grid = make_grid(CLAIM, CLAIM, [lines])
    without = LogEvidence(grid, lines).without(0)
    # The one that stays has all of its uncertainty as its own again.
    alone = LogEvidence(grid, lines[1:]).total
    np.testing.assert_allclose(density(without), density(alone), atol=0.01)


def test_quantiles_of_a_flat_posterior_are_even_in_the_logarithm():
    grid = make_grid(CLAIM, CLAIM, [])
    median, low, high = quantiles(grid, np.ones((1, grid.points().shape[1])))[0]
    span = np.log(1.6 * 30)                                  # from c/30 to 1.6 c
    for value, share in ((median, 0.5), (low, 0.05), (high, 0.95)):
        assert np.log(value / (12 / 30)) / span == pytest.approx(share, abs=1e-9)


def test_the_grid_reaches_beyond_claims_and_lines():
    x = np.exp(make_grid(CLAIM, CLAIM, [(line(100.0, 0.1), line(0.3, 0.1))]).points())
    assert x[0, 0] == pytest.approx(0.1) and x[0, -1] == pytest.approx(160.0)


def test_a_unit_without_claims_has_a_grid_of_its_own():
    nothing = np.array([np.nan])
    x = np.exp(make_grid(nothing, nothing, []).points())
    assert (x[0, 0], x[0, -1]) == pytest.approx((0.2, 300.0))
