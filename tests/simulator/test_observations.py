"""What contributors record of the drawn units: gaps, noise and mistakes at the stated rates."""
import numpy as np
import pytest

from .chargers import draw_chargers
from .claims import MET, draw_plates
from .habits import REGIMES, USUAL, Habits
from .observations import draw_observations

N = 6000


@pytest.fixture(scope="module")
def drawn():
    rng = np.random.default_rng(3)
    chargers = draw_chargers(N, rng, USUAL)
    plates = draw_plates(chargers, rng)
    observed = {regime.name: {clue.code: clue for clue in draw_observations(
        chargers, plates, rng, regime, USUAL)} for regime in REGIMES}
    return chargers, plates, observed


def test_about_half_of_the_claims_are_met(drawn):
    _, plates, _ = drawn
    assert 0.45 < plates.power_met.mean() < 0.55


def test_met_means_within_five_percent_of_the_claim(drawn):
    chargers, plates, _ = drawn
    short = chargers.capability(chargers.mains_low) < MET * plates.power
    assert np.array_equal(short, ~plates.power_met)


def test_few_clues_are_three_in_ten(drawn):
    mass = drawn[2]["few clues"]["mass_total"].value
    # 6000 draws at 0.3: standard deviation sqrt(0.3 × 0.7 / 6000) = 0.006
    assert np.mean(~np.isnan(mass)) == pytest.approx(0.3, abs=0.025)


def test_nothing_is_tested_unless_the_regime_says_so(drawn):
    assert np.isnan(drawn[2]["all clues"]["sustained_power"].value).all()


def test_a_load_that_was_lost_lies_above_the_one_that_held(drawn):
    tests = drawn[2]["with tests"]
    held, lost = tests["sustained_power"].value, tests["failed_power"].value
    both = ~np.isnan(lost)
    assert both.any()
    assert np.mean(lost[both] > 0.95 * held[both]) > 0.99       # meters of 1 %


def test_a_bridge_is_taken_for_half_wave_only_by_those_who_miscount(drawn):
    chargers, plates, observed = drawn
    flag = observed["all clues"]["rectifier_full_wave"].value
    assert np.all(flag[chargers.full_wave & ~np.isnan(flag)] == 1)
    again = {clue.code: clue.value for clue in draw_observations(
        chargers, plates, np.random.default_rng(3), REGIMES[1], Habits(miscounted=0.2))}
    flag = again["rectifier_full_wave"]
    seen = flag[chargers.full_wave & ~np.isnan(flag)]
    assert np.mean(seen == 0) == pytest.approx(0.2, abs=0.03)


def test_a_marked_capacitor_is_a_catalogue_value_and_a_measured_one_is_not(drawn):
    chargers, _, observed = drawn
    clues = observed["all clues"]
    marked, read = clues["bulk_capacitance_marked"].value, clues["bulk_capacitance"].value
    assert np.all(np.isnan(marked) != np.isnan(read))
    assert np.nanmedian(abs(read / chargers.bulk - 1)) < 0.03
