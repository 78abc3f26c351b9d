"""Practice may whisper, physics may shout, a test decides."""
import numpy as np
import pytest

from teardowns.engine.likelihoods import (
    FLOOR,
    log_failed,
    log_likelihood,
    log_limit,
    log_passed,
    log_practice,
    log_switch,
)

D = np.linspace(-60, 60, 4001)
SIGMA, MARGIN = 0.15, 0.45


def test_practice_speaks_24_to_1_at_most():
    # (0.15/4 + 0.85) / (0.15/4) = 23.67
    log = log_practice(D, SIGMA)
    assert np.exp(log.max() - log.min()) == pytest.approx(23.67, abs=0.01)


def test_a_limit_refutes_as_far_as_one_reading_can():
    d = np.array([-0.3, -0.45, -0.6])
    assert (np.diff(log_limit(d, SIGMA, MARGIN)) < -1.5).all()
    # Beyond, the reading is a slip: 0.025 · 0.005/(1 + 0.1 · 6) = 7.8e-5.
    assert np.exp(log_limit(np.array([-6.0]), SIGMA, MARGIN)[0]) == pytest.approx(7.8125e-5)


def test_a_slip_by_a_thousand_is_hardly_rarer_than_one_by_three():
    # ln 3 = 1.10 and ln 1000 = 6.91: 1.69/1.11 = 1.52
    three, thousand = log_limit(-np.log([3.0, 1000.0]), 0.05, MARGIN)
    assert np.exp(three - thousand) == pytest.approx(1.52, abs=0.01)


def test_two_limits_refute_more_than_one():
    # Two parts that both lie far below a claim are no two slips: 0.025 · 0.005/1.2 each.
    assert np.exp(2 * log_limit(np.array(-2.0), 0.1, MARGIN)) < 2e-8


def test_a_limit_supports_mildly():
    # Far below the limit stays (1 − w)/4 = 0.025 of at most 1, and 0.005/7 of it for slips.
    log = log_limit(D, SIGMA, MARGIN)
    assert log[-1] == pytest.approx(np.log(0.025), abs=1e-3)
    assert np.exp(log.max() - log[-1]) < 40


def test_a_limit_is_the_formula_of_the_design():
    # d = σ = 0.1, s = 0.3: t = √0.1 = 0.316228; Φ(1) = 0.841345; exp(−0.05) = 0.951229;
    # 2σ/t = 0.632456; Φ(0.1·0.3/(0.1·0.316228)) = Φ(0.948683) = 0.828609
    # 0.1·0.841345/4 + 0.9·0.632456·0.951229·0.828609 = 0.021034 + 0.448651 = 0.469685;
    # slips 0.025 · 0.005/1.01 = 0.000124.
    assert np.exp(log_limit(np.array(0.1), 0.1, 0.3)) == pytest.approx(0.469809, abs=2e-5)


@pytest.mark.parametrize("log, side", [(log_passed, 1), (log_failed, -1)])
def test_a_test_decides_on_its_side_alone(log, side):
    # One standard uncertainty off: Φ(1) = 0.8413 and Φ(−1) = 0.1587.
    assert np.exp(log(np.array(-side * 0.02), 0.02)) == pytest.approx(0.8413, abs=1e-4)
    assert np.exp(log(np.array(side * 0.02), 0.02)) == pytest.approx(0.1587, abs=1e-4)


@pytest.mark.parametrize("log", [log_limit, log_practice, log_passed, log_failed])
def test_no_line_says_much_more_than_the_floor_or_less_than_a_number(log):
    values = log(D, 1e-3, MARGIN)
    assert np.isfinite(values).all()
    assert values.min() >= np.log(FLOOR) - 60 - 1e-9 and values.max() <= 1e-12


@pytest.mark.parametrize("log, sign", [(log_passed, 1), (log_failed, -1)])
def test_beyond_the_floor_a_larger_mistake_is_less_likely(log, sign):
    # A load of 1 mW says nothing by its tail, but 5 W lie nearer to it than 45 W: by 9 times.
    near, far = (log(np.array([sign * np.log(watts / 0.001)]), 0.05, MARGIN) for watts in (5, 45))
    assert float((near - far)[0]) == pytest.approx(np.log(9))


@pytest.mark.parametrize("ratio", [8.0, 1 / 8.0])
def test_a_switch_tells_the_two_sides_apart_by_its_ratio(ratio):
    below, above = log_switch(np.array([0.1, -0.1]), ratio)
    assert np.exp(above - below) == pytest.approx(ratio)
    assert max(above, below) == 0


@pytest.mark.parametrize("log", [log_limit, log_practice, log_passed, log_failed])
def test_unknown_in_unknown_out(log):
    assert np.isnan(log(np.array(np.nan), SIGMA, MARGIN))


def test_a_doubted_limit_is_a_mixture_of_two():
    # One reading in ten is of a part overlooked, which would put the limit four times higher.
    found = np.exp(log_likelihood("limit", D, SIGMA, MARGIN, np.array(0.1), np.array(4.0)))
    right, mistaken = (np.exp(log_limit(d, SIGMA, MARGIN)) for d in (D, D + np.log(4)))
    np.testing.assert_allclose(found, 0.9 * right + 0.1 * mistaken, rtol=1e-9)


def test_without_doubt_nothing_changes():
    assert (log_likelihood("limit", D, SIGMA, MARGIN, np.zeros(1), np.ones(1))
            == log_limit(D, SIGMA, MARGIN)).all()
