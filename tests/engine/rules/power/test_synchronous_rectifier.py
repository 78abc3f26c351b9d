"""I²R in a small package, worked by hand: r = 1.6, 1.5 times the resistance when hot."""
import numpy as np
import pytest

from teardowns.engine.rules.power.synchronous_rectifier import PACKAGE, synchronous_rectifier
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/synchronous_rectifier"
CLAIM = (5.0, 3.0, NAN)


def unit(milliohms, *more):
    return [*WIDE, ("synchronous_on_resistance", milliohms * 1e-3, 0.0), *more]


def moved(milliohms, claim):
    return weight(judge(unit(milliohms), [claim]), ID)


def test_ten_milliohms_make_a_watt_and_a_half_at_6_25_amperes():
    # 6.25 A · 1.6 = 10 A rms; 10² · 15 mΩ = 1.5 W; 6.25 A · 5 V = 31.25 W.
    assert ends(synchronous_rectifier, unit(10.0), [CLAIM]) == pytest.approx([31.25, 31.25])


def test_half_the_resistance_carries_the_root_of_two_more():
    assert value(synchronous_rectifier, 0.005, 5.0, NAN) == pytest.approx(
        np.sqrt(2) * value(synchronous_rectifier, 0.010, 5.0, NAN))


def test_the_usual_0_6_watts_lie_inside_the_margin():
    # Current goes with the root: ½·ln(1.5/0.6) = 0.458 below the limit.
    assert 0 < 0.5 * np.log(PACKAGE / 0.6) < synchronous_rectifier.rule.margin


@pytest.mark.parametrize("inputs", [(NAN, 5.0, 0.0), (0.01, NAN, 0.0)])
def test_unknown_in_unknown_out(inputs):
    assert np.isnan(value(synchronous_rectifier, *inputs))


def test_a_resistance_of_zero_is_no_line():
    assert ends(synchronous_rectifier, unit(0.0), [CLAIM]) == [None, None]


def test_behind_a_converter_at_the_port_it_says_nothing():
    found = line(synchronous_rectifier, unit(10.0, ("port_converter", 1.0, 0.0)), [CLAIM])
    assert not found["used"] and "converter" in found["why_not"]


def test_a_transistor_that_would_shed_ten_watts_speaks_against_the_claim():
    # 3 A · 1.6 = 4.8 A rms; 4.8² · 1.5 · 300 mΩ = 10.4 W.
    assert moved(300.0, CLAIM) < -15


def test_a_transistor_far_larger_than_needed_says_next_to_nothing():
    assert abs(moved(2.0, CLAIM)) < 3.5


@pytest.mark.parametrize("name", ["20 W", "65 W"])
def test_honest_chargers_are_not_doubted(name):
    observations, claims = HONEST[name]
    done = judge(observations, claims)
    assert all(weight(done, ID, claim) > -3 for claim in range(len(claims)))


def test_a_missing_resistance_is_asked_for():
    found = questions(synchronous_rectifier, WIDE, [CLAIM])
    assert len(found) == 1 and "On-resistance" in found[0]


def test_one_gives_the_bits_of_many():
    ohms = np.random.default_rng(1).uniform(1e-3, 0.1, 501)
    many = synchronous_rectifier(ohms, np.full(501, 5.0), np.full(501, NAN))
    for i in (0, 250, 500):
        one = synchronous_rectifier(ohms[[i]], np.array([5.0]), np.array([NAN]))
        assert one.tobytes() == many[[i]].tobytes()
