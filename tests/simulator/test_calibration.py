"""The engine's probabilities on drawn chargers of known capability, quickly.

The bars are looser than those of `python -m tests.bench.calibration`, for fewer units scatter.
"""
from dataclasses import replace

import numpy as np
import pytest

from .habits import REGIMES
from .scores import coverage, score
from .trial import join, run

N = 1000                # chargers a regime
MOST_POWER = (0, 1)     # claims of most power, without and with a voltage


@pytest.fixture(scope="module")
def trials():
    return [run(N, seed, regime) for seed, regime in enumerate(REGIMES, 11)]


@pytest.fixture(scope="module")
def scores(trials):
    return most_power(join(trials))


def most_power(trial):
    of = np.isin(trial.group, MOST_POWER)
    return score(trial.p[of], trial.met[of])


def test_every_claim_gets_a_probability(trials):
    for trial in trials:
        assert np.all((trial.p >= 0) & (trial.p <= 1))


def test_honest_units_are_hardly_ever_called_implausible(scores):
    assert scores.condemned < 0.01


def test_honest_units_are_not_called_unattainable(scores):
    # 3000 met claims: 0.05 % are 1.5; more than 6 has a chance below 1 in 1000 (Poisson)
    assert scores.condemned_hard < 0.002


def test_overstated_claims_are_rarely_called_supported(scores):
    assert scores.reassured < 0.05


def test_probabilities_mean_what_they_say(scores):
    assert scores.reliability_error < 0.15


def test_nine_of_ten_intervals_hold_the_capability(trials):
    whole = join(trials)
    assert 0.83 < coverage(whole.capability, whole.low, whole.high) < 0.97


def test_more_clues_tell_more(trials):
    few, every, _ = (most_power(trial).brier for trial in trials)
    assert every < 0.6 * few < 0.6 * 0.25       # 0.25 is the score of even odds for every claim


def test_the_bars_notice_an_engine_that_is_too_sure(trials):
    whole = join(trials)
    odds = np.clip(whole.p, 1e-9, 1 - 1e-9)
    sure = (odds / (1 - odds)) ** 3
    found = most_power(replace(whole, p=sure / (1 + sure)))
    assert found.reliability_error > 0.15
    assert found.condemned > 0.01
