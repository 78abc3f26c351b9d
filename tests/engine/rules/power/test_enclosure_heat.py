"""70 × 45 × 30 mm at 105 °C in air of 25 °C, ε = 0.95: 17.39 W by the equations of the library ht
1.2.0; with a tenth of the whole through the pins 19.32 W.
"""
import numpy as np
import pytest

from teardowns.engine.physics.enclosure import enclosure_heat as box_heat
from teardowns.engine.rules.power.enclosure_heat import enclosure_heat
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "power/enclosure_heat"
BOX, TINY = (0.070, 0.045, 0.030), (0.025, 0.025, 0.030)
SIDES = ("case_height", "case_width", "case_depth")


def unit(box, *observations):
    return [*WIDE, *zip(SIDES, box, (5e-4,) * 3, strict=True), *observations]


def moved(box, claim, *observations):
    return weight(judge(unit(box, *observations), [watts(claim)]), ID)


@pytest.mark.parametrize("efficiency, expected", [
    (0.80, 77.3), (0.90, 173.9), (0.50, 19.32)])          # 19.32 W times 4, 9, 1
def test_the_heat_times_what_the_efficiency_makes_of_it(efficiency, expected):
    assert value(enclosure_heat, *BOX, efficiency) == pytest.approx(expected, rel=0.03)


def test_the_usual_design_lies_well_below_the_bound():
    # Touchable 77 °C at the hottest place, hot-spot factor 0.70 (0.55 to 0.85): 61.4 °C on
    # average; half of a tenth through the pins, ε = 0.92.
    usual = float(box_heat(*BOX, 25 + 0.70 * 52, 25.0, 0.0, 0.92)) / 0.95
    bound = value(enclosure_heat, *BOX, 0.5)
    # A factor of e: touch sets 1.05 in ln between them, and no maker aims at the bound itself.
    assert np.log(bound / usual) == pytest.approx(1.05, abs=0.06)


@pytest.mark.parametrize("missing", range(4))
def test_unknown_in_unknown_out(missing):
    inputs = [*BOX, 0.8]
    inputs[missing] = NAN
    assert np.isnan(value(enclosure_heat, *inputs))


def test_a_case_of_no_size_is_no_line():
    assert line(enclosure_heat, unit((0.0, 0.045, 0.030)), [watts(18.0)])["used"] is False


def test_without_the_case_there_is_no_line_and_a_question():
    assert line(enclosure_heat, list(WIDE), [watts(18.0)]) is None
    assert any("case" in text for text in questions(enclosure_heat, list(WIDE), [watts(18.0)]))


def test_both_mains_ends_have_the_same_bound():
    low, high = ends(enclosure_heat, unit(BOX, ("efficiency", 0.80, 0.005)), [watts(18.0)])
    assert low == high == pytest.approx(77.3, rel=0.03)


def test_efficiency_carries_most_of_the_uncertainty():
    # d ln P = dη/(η(1 − η)) = 0.02/0.09 = 0.22 at 0.90; the model 0.15.
    known, vague = (line(enclosure_heat, unit(BOX, ("efficiency", 0.90, u)), [watts(65.0)])
                    for u in (0.0, 0.02))
    u_known, u_vague = (each["ends"]["low"]["u_ln"] for each in (known, vague))
    assert u_known == pytest.approx(0.15, abs=0.015)
    assert u_vague**2 - u_known**2 == pytest.approx(0.222**2, rel=0.05)


def test_a_claim_far_above_the_bound_is_spoken_against():
    # 7.1 W times 4: 28 W at 0.80.
    assert moved(TINY, 120.0, ("efficiency", 0.80, 0.01)) < -10


@pytest.mark.parametrize("box, claim", [
    # Sizes of chargers that are on the market, to half a centimetre; their efficiency unknown.
    ((0.060, 0.040, 0.025), 5.0), ((0.070, 0.045, 0.030), 18.0), ((0.045, 0.030, 0.030), 20.0),
    ((0.040, 0.040, 0.050), 65.0), ((0.060, 0.060, 0.030), 65.0), ((0.070, 0.055, 0.030), 100.0)])
def test_usual_chargers_are_not_spoken_against(box, claim):
    assert moved(box, claim) > -3


def test_a_large_case_says_little():
    assert abs(moved((0.15, 0.10, 0.06), 10.0)) < 3.5


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    columns = [rng.uniform(0.02, 0.15, 301) for _ in SIDES] + [rng.uniform(0.6, 0.95, 301)]
    many = enclosure_heat(*columns)
    for i in (0, 150, 300):
        one = enclosure_heat(*(column[[i]] for column in columns))
        assert one.tobytes() == many[[i]].tobytes()
