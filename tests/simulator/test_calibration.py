"""The engine's probabilities on drawn chargers of known capability, quickly.

The bars are looser than those of `python -m tests.bench.calibration`, for fewer units scatter.
"""
from dataclasses import replace

import numpy as np
import pytest

from .habits import REGIMES
from .scores import coverage
from .trial import join, run

N = 800                 # chargers a regime


@pytest.fixture(scope="module")
def trials():
    return [run(N, seed, regime) for seed, regime in enumerate(REGIMES, 11)]


@pytest.fixture(scope="module")
def scores(trials):
    return join(trials).score()


def test_every_claim_gets_a_probability(trials):
    for trial in trials:
        assert np.all((trial.p >= 0) & (trial.p <= 1))


def test_honest_units_are_hardly_ever_called_implausible(scores):
    assert scores.condemned < 0.01


def test_honest_units_are_not_called_unattainable(scores):
    # 2400 met claims: 0.03 % are 0.7; more than 4 has a chance below 1 in 1000 (Poisson)
    assert scores.condemned_hard < 0.002


def test_overstated_claims_are_rarely_called_supported(scores):
    assert scores.reassured < 0.03


def test_threefold_claims_are_noticed_on_ordinary_evidence(trials):
    scores = join([trials[1], trials[2]]).score()
    assert scores.threefold > 50
    assert scores.noticed > 0.93


def test_probabilities_of_opened_units_mean_what_they_say(trials):
    assert join([trials[1], trials[2]]).score().reliability_error < 0.15


def test_nine_of_ten_intervals_hold_the_capability(trials):
    whole = join(trials)
    assert 0.83 < coverage(whole.capability, whole.low, whole.high) < 0.97


def test_more_clues_tell_more(trials):
    scale, opened, bench = (trial.score().brier for trial in trials)
    assert bench < opened < 0.7 * scale < 0.7 * 0.25    # 0.25 is the score of even odds throughout


def test_the_bars_notice_an_engine_that_is_too_sure(trials):
    whole = join(trials)
    odds = np.clip(whole.p, 1e-9, 1 - 1e-9)
    sure = (odds / (1 - odds)) ** 4
    found = replace(whole, p=sure / (1 + sure)).score()
    assert found.condemned > 2 * whole.score().condemned
    assert found.condemned > 0.01
