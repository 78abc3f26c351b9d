"""At most the average rated current; a third of it is advised in AN-19 (6/96), page 14."""
import numpy as np
import pytest

from teardowns.engine.rules.power.output_rectifier import output_rectifier
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/output_rectifier"


def unit(rating, *more):
    return [*WIDE, ("rectifier_current_rating", rating, 0.0), *more]


def moved(rating, claim):
    return weight(judge(unit(rating), [claim]), ID)


def test_the_rating_times_the_voltage_is_the_limit_at_both_ends():
    assert ends(output_rectifier, unit(3.0), [(5.0, 2.0, NAN)]) == [15.0, 15.0]


def test_the_advised_third_lies_inside_the_margin():
    # 6 A for 2 A of output: ln 3 = 1.10 below the limit.
    assert 0 < np.log(3) < output_rectifier.rule.margin


@pytest.mark.parametrize("volts, watts", [(5.0, 15.0), (9.0, 27.0)])
def test_each_claim_is_judged_at_its_own_voltage(volts, watts):
    assert value(output_rectifier, 3.0, volts, NAN) == watts


@pytest.mark.parametrize("inputs", [(NAN, 5.0, 0.0), (3.0, NAN, 0.0)])
def test_unknown_in_unknown_out(inputs):
    assert np.isnan(value(output_rectifier, *inputs))


def test_behind_a_converter_at_the_port_it_says_nothing():
    found = line(output_rectifier, unit(3.0, ("port_converter", 1.0, 0.0)), [(5.0, 2.0, NAN)])
    assert not found["used"] and "converter" in found["why_not"]


def test_a_rating_of_zero_is_no_line():
    assert ends(output_rectifier, unit(0.0), [(5.0, 2.0, NAN)]) == [None, None]


def test_a_one_ampere_diode_carries_no_three_amperes():
    # ln 3 beyond the limit, five times its uncertainty of 0.20.
    assert moved(1.0, (5.0, 3.0, NAN)) < -30


def test_a_claim_just_at_the_rating_is_at_most_doubted():
    done = judge(unit(3.0), [(5.0, 3.0, NAN)])
    assert 0.1 < done.judged.plausibility[0] < 0.5


def test_far_more_than_the_claim_needs_says_nothing():
    assert abs(moved(200.0, (5.0, 1.0, NAN))) < 3


def test_the_10_watt_design_is_not_doubted():
    observations, claims = HONEST["10 W"]
    assert weight(judge(observations, claims), ID) > -3


def test_a_missing_rating_is_asked_for():
    found = questions(output_rectifier, WIDE, [(5.0, 2.0, NAN)])
    assert len(found) == 1 and "output rectifier" in found[0]


def test_one_gives_the_bits_of_many():
    rating = np.random.default_rng(1).uniform(1, 30, 501)
    many = output_rectifier(rating, np.full(501, 5.0), np.full(501, NAN))
    for i in (0, 250, 500):
        one = output_rectifier(rating[[i]], np.array([5.0]), np.array([NAN]))
        assert one.tobytes() == many[[i]].tobytes()
