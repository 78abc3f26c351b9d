"""A trial keeps what is true beside what the engine says."""
import numpy as np
import pytest

from .habits import REGIMES
from .observed import Observed
from .trial import join, ordinary, run

KNOWN, UNKNOWN = np.ones(1), np.array([np.nan])


@pytest.fixture(scope="module")
def trial():
    return run(200, 4, REGIMES[1])


def test_a_claim_of_power_is_met_within_five_percent(trial):
    power = trial.group == 0
    assert np.array_equal(trial.met[power], trial.overstated[power] <= 1 / 0.95)


def test_claims_at_5_volts_have_no_overstatement(trial):
    assert np.all(np.isnan(trial.overstated) == (trial.group == 2))


def test_joined_trials_lie_one_behind_the_other(trial):
    assert join([trial, trial]).p.size == 2 * trial.p.size


@pytest.mark.parametrize("missing", ["mass_total", "rated_voltage_low", "bulk_capacitance_marked",
                                     "output_capacitor_rating", "controller_power_wide"])
def test_ordinary_evidence_has_all_five(missing):
    codes = ("mass_total", "rated_voltage_low", "bulk_capacitance_marked",
             "output_capacitor_rating", "controller_power_wide")
    assert ordinary([Observed(code, KNOWN, 0.0) for code in codes])[0]
    assert not ordinary([Observed(code, UNKNOWN if code == missing else KNOWN, 0.0)
                         for code in codes])[0]
