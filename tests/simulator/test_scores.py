"""The scores, on cases small enough to count."""
import numpy as np
import pytest

from .scores import coverage, reliability, score


def test_brier_is_the_mean_square():
    # (0.8-1)² = 0.04, (0.3-0)² = 0.09; mean 0.065
    assert score(np.array([0.8, 0.3]), np.array([True, False])).brier == pytest.approx(0.065)


def test_condemned_counts_only_met_claims():
    found = score(np.array([0.05, 0.5, 0.05, 0.005]), np.array([True, True, False, True]))
    assert found.condemned == pytest.approx(2 / 3)
    assert found.condemned_hard == pytest.approx(1 / 3)


def test_a_bin_with_few_claims_does_not_count():
    p = np.r_[np.full(200, 0.55), np.full(199, 0.95)]
    met = np.r_[np.arange(200) < 90, np.zeros(199, bool)]       # 0.45 met; then none at all
    assert score(p, met).reliability_error == pytest.approx(0.10)


def test_the_last_bit_does_not_choose_the_bin():
    below = np.array([0.5 - 1e-12, 0.5])
    assert list(reliability(below, np.array([True, False])))[5] == (2, pytest.approx(0.5), 0.5)


def test_certainty_belongs_to_the_last_bin():
    assert list(reliability(np.array([1.0]), np.array([True])))[-1] == (1, 1.0, 1.0)


def test_coverage_leaves_out_units_without_an_interval_or_a_truth():
    truth = np.array([1.0, 2.0, 3.0, np.nan])
    low, high = np.array([0.5, 2.5, np.nan, 1.0]), np.array([1.5, 3.5, np.nan, 2.0])
    assert coverage(truth, low, high) == 0.5


def test_reassured_counts_only_claims_of_half_again_and_more():
    found = score(np.array([0.95, 0.95, 0.5]), np.array([False] * 3), np.array([1.4, 1.6, 2.0]))
    assert found.reassured == pytest.approx(0.5)


def test_noticed_counts_only_threefold_claims_on_ordinary_evidence():
    p, none = np.array([0.05, 0.5, 0.5, 0.01]), np.zeros(4, bool)
    overstated, usual = np.array([3.0, 4.0, 5.0, 2.0]), np.array([True, True, False, True])
    found = score(p, none, overstated, usual)
    assert (found.noticed, found.threefold) == (0.5, 2)
