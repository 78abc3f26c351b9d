"""The average current of a rectifier, against the power from the bus in circuit simulations."""
import numpy as np
import pytest

from teardowns.engine.rules.power.bridge import CAPACITOR, CORRECTED, bridge
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.physics.test_rectifier import CASES
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/bridge"
# 0.778 leaves 0.778/0.9725 = 0.8 of the power of the bus.
INPUTS = (0.5, 0.778, 100.0, 0.0)


def unit(rating, *more):
    return [*WIDE, ("bridge_current_rating", rating, 0.0), *more]


def moved(rating, claim):
    return weight(judge(unit(rating), [watts(claim)]), ID)


def test_half_an_ampere_at_100_volts():
    # 0.5 A · 1.27 · 100 V · 0.8 = 50.8 W.
    assert value(bridge, *INPUTS) == pytest.approx(50.8)


@pytest.mark.parametrize("case", CASES, ids=[case[0] for case in CASES])
def test_the_bus_of_a_simulated_charger_rides_near_the_assumed_share(case):
    # Mean of the bus between its peak and its simulated valley, in parts of the mains voltage.
    _, _, volts, *_, valley, _ = case
    mean = (np.sqrt(2) * volts + valley) / 2 / volts
    assert abs(np.log(mean / CAPACITOR)) < 2 * bridge.rule.model_error


def test_a_sine_behind_a_corrector_has_its_form_factor():
    # Of |sin|: root mean square 1/√2, average 2/π; power = V · rms, so V · 1.1107 · average.
    assert pytest.approx(np.pi / (2 * np.sqrt(2)), abs=1e-3) == CORRECTED
    assert value(bridge, 0.5, 0.778, 100.0, 1.0) == pytest.approx(0.5 * 111 * 0.8)


def test_a_corrector_that_nobody_looked_for_leaves_no_bound():
    found = line(bridge, unit(2.0), [watts(100.0)])
    assert found is None or not found["used"]


def test_both_mains_ends_are_asked():
    low, high = ends(bridge, unit(0.5, ("efficiency", 0.778, 0.0)), [watts(10.0)])
    assert (low, high) == pytest.approx((50.8, 2.4 * 50.8))


@pytest.mark.parametrize("place", range(4))
def test_unknown_in_unknown_out(place):
    assert np.isnan(value(bridge, *INPUTS[:place], NAN, *INPUTS[place + 1:]))


def test_a_bridge_far_too_small_speaks_against_the_claim():
    # About 51 W at 0.5 A; 65 W of 0.1 A are six times too much.
    assert moved(0.1, 65.0) < -15


@pytest.mark.parametrize("rating", [1.0, 2.0, 4.0])
def test_a_bridge_far_larger_than_needed_says_nothing(rating):
    assert abs(moved(rating, 10.0)) < 3


@pytest.mark.parametrize("name", HONEST)
def test_honest_chargers_are_not_doubted(name):
    observations, claims = HONEST[name]
    done = judge(observations, claims)
    assert all(weight(done, ID, claim) > -1 for claim in range(len(claims)))


def test_a_missing_rating_is_asked_for():
    found = questions(bridge, WIDE, [watts(10.0)])
    assert len(found) == 1 and "mains rectifier" in found[0]


def test_one_gives_the_bits_of_many():
    rating = np.random.default_rng(1).uniform(0.3, 4, 501)
    many = bridge(rating, *(np.full(501, each) for each in INPUTS[1:]))
    for i in (0, 250, 500):
        one = bridge(rating[[i]], *(np.array([each]) for each in INPUTS[1:]))
        assert one.tobytes() == many[[i]].tobytes()
