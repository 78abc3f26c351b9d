"""10 Ω of 1 W: √(1 W/10 Ω) = 0.316 A, at 100 V and a power factor of 0.58 18.3 W of input."""
import numpy as np
import pytest

from teardowns.engine.rules.power.fusible_resistor import OVERLOAD, fusible_resistor
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/fusible_resistor"
INPUTS = (10.0, 1.0, 100.0, 0.58, 0.8)


def unit(ohms, rating, *more):
    return [*WIDE, ("fusible_resistance", ohms, 0.03 * ohms), ("fusible_power_rating", rating, 0.0),
            *more]


def moved(ohms, rating, claim):
    return weight(judge(unit(ohms, rating), [watts(claim)]), ID)


def test_4_g_ten_ohms_of_one_watt():
    # At its rating 18.3 W in, 14.7 W out at 0.8; the limit at √1.5 times the current.
    assert value(fusible_resistor, *INPUTS) / np.sqrt(OVERLOAD) == pytest.approx(
        0.8 * 18.3, rel=3e-3)


def test_the_usual_heat_lies_inside_the_margin():
    # 0.6 of the rating: ½·ln(1.5/0.6) = 0.46 below the limit.
    assert 0 < 0.5 * np.log(OVERLOAD / 0.6) < fusible_resistor.rule.margin


def test_four_times_the_resistance_halves_the_power():
    assert value(fusible_resistor, 40.0, *INPUTS[1:]) == pytest.approx(
        value(fusible_resistor, *INPUTS) / 2)


@pytest.mark.parametrize("place", range(5))
def test_unknown_in_unknown_out(place):
    assert np.isnan(value(fusible_resistor, *INPUTS[:place], NAN, *INPUTS[place + 1:]))


def test_a_resistance_of_zero_is_no_line():
    assert ends(fusible_resistor, unit(0.0, 1.0), [watts(10.0)]) == [None, None]


def test_the_size_is_asked_for_where_only_the_resistance_is_known():
    seen = [*WIDE, ("fusible_resistance", 10.0, 0.3)]
    assert line(fusible_resistor, seen, [watts(10.0)]) is None
    assert any("4 × 10 mm" in text for text in questions(fusible_resistor, seen, [watts(10.0)]))


def test_without_a_look_for_a_corrector_a_large_claim_is_not_judged_by_it():
    found = line(fusible_resistor, unit(1.0, 2.0), [watts(100.0)])
    assert not found["used"] and "corrector" in found["why_not"]


def test_a_resistor_that_would_shed_six_watts_speaks_against_the_claim():
    # 36 W out, 42 W in, 0.73 A: 5.3 W in a resistor of 1 W.
    assert moved(10.0, 1.0, 36.0) < -20


@pytest.mark.parametrize("claim", [3.0, 5.0, 10.0])
def test_the_same_resistor_in_smaller_chargers_says_nothing(claim):
    assert abs(moved(10.0, 1.0, claim)) < 3


def test_the_10_watt_design_is_not_doubted():
    observations, claims = HONEST["10 W"]
    assert weight(judge(observations, claims), ID) > -1


def test_one_gives_the_bits_of_many():
    ohms = np.random.default_rng(1).uniform(1, 30, 501)
    many = fusible_resistor(ohms, *(np.full(501, each) for each in INPUTS[1:]))
    for i in (0, 250, 500):
        one = fusible_resistor(ohms[[i]], *(np.array([each]) for each in INPUTS[1:]))
        assert one.tobytes() == many[[i]].tobytes()
