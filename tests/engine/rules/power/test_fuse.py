"""A fuse's continuous current by the EDN checklist (1996): 0.75 A of a 1 A fuse at 25 °C."""
import numpy as np
import pytest

from teardowns.engine.rules.power.fuse import HOLDS, fuse
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/fuse"
INPUTS = (0.2, 100.0, 0.58, 0.75)


def unit(rating, *more):
    return [*WIDE, ("fuse_rating", rating, 0.0), *more]


def moved(rating, claim):
    return weight(judge(unit(rating), [watts(claim)]), ID)


def test_two_tenths_of_an_ampere_at_100_volts():
    # 5-d: 100 V · 0.2 A · 0.58 · 0.75 = 8.7 W, and it holds 1.2 times as much.
    assert value(fuse, *INPUTS) == pytest.approx(1.2 * 8.7)


def test_the_published_practice_lies_inside_the_margin():
    # 4-f: 0.75 of the rating, ln(1.2/0.75) = 0.47 below what it holds.
    assert 0 < np.log(HOLDS / 0.75) < fuse.rule.margin


@pytest.mark.parametrize("held", [1.0, 1.5])
def test_what_a_fuse_may_hold_lies_within_two_uncertainties(held):
    # The rating itself, and the 1.5 times that an IEC 60127 fuse holds for an hour (from memory).
    assert abs(np.log(held / HOLDS)) < 2 * fuse.rule.model_error


@pytest.mark.parametrize("place", range(4))
def test_unknown_in_unknown_out(place):
    assert np.isnan(value(fuse, *INPUTS[:place], NAN, *INPUTS[place + 1:]))


def test_the_power_factor_is_that_of_the_mains_end():
    # 1.2 · 0.2 A · 100 V · 0.58 · 0.75 = 10.44 W; 240 V · 0.52: 22.46 W.
    found = ends(fuse, unit(0.2, ("efficiency", 0.75, 0.0)), [watts(8.0)])
    assert found == pytest.approx([10.44, 22.46], rel=1e-3)


def test_two_diodes_draw_more_current_for_the_power():
    seen = ("efficiency", 0.75, 0.0), ("rectifier_full_wave", 0.0, 0.0)
    # 0.37 in place of 0.58: 6.66 W.
    assert ends(fuse, unit(0.2, *seen), [watts(5.0)])[0] == pytest.approx(6.66, rel=1e-3)


def test_a_measured_power_factor_takes_the_place_of_the_usual_one():
    seen = ("efficiency", 0.75, 0.0), ("power_factor", 0.65, 0.01)
    assert ends(fuse, unit(0.2, *seen), [watts(8.0)])[0] == pytest.approx(1.2 * 20 * 0.65 * 0.75)


def test_without_a_look_for_a_corrector_a_large_claim_is_not_judged_by_it():
    found = line(fuse, unit(1.0), [watts(100.0)])
    assert not found["used"] and "corrector" in found["why_not"]


def test_a_fuse_far_too_small_speaks_against_the_claim():
    # 1.2 · 0.5 A · 100 V · 0.58 · 0.9 = 31 W.
    assert moved(0.5, 90.0) < -15 or np.isnan(moved(0.5, 90.0))
    assert moved(0.2, 60.0) < -15


@pytest.mark.parametrize("rating", [1.0, 2.0, 3.15])
def test_a_fuse_chosen_for_the_switch_on_pulse_says_nothing(rating):
    assert abs(moved(rating, 10.0)) < 3


@pytest.mark.parametrize("name", HONEST)
def test_honest_chargers_are_not_doubted(name):
    observations, claims = HONEST[name]
    done = judge(observations, claims)
    assert all(weight(done, ID, claim) > -1 for claim in range(len(claims)))


def test_a_missing_rating_is_asked_for():
    found = questions(fuse, WIDE, [watts(10.0)])
    assert len(found) == 1 and "mains fuse" in found[0]


def test_one_gives_the_bits_of_many():
    rating = np.random.default_rng(1).uniform(0.3, 4, 501)
    many = fuse(rating, *(np.full(501, each) for each in INPUTS[1:]))
    for i in (0, 250, 500):
        one = fuse(rating[[i]], *(np.array([each]) for each in INPUTS[1:]))
        assert one.tobytes() == many[[i]].tobytes()
