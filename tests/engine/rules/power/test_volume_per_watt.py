"""Power over volume by bracket: 0.25 W/cm³ to 7 W, 0.4 for 10 to 15 W, 0.7 for 18 to 30 W, 1.1 for
30 to 100 W, each with a coefficient of variation of 0.4 (from memory; no published table).
"""
import numpy as np
import pytest

from teardowns.engine.rules.power.volume_per_watt import volume_per_watt
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions

ID = "power/volume_per_watt"


def case(height, width, depth):
    """Millimetres."""
    return [*WIDE, *((f"case_{name}", 1e-3 * size, 1e-4) for name, size in
                     (("height", height), ("width", width), ("depth", depth)))]


def power(cubic_centimetres):
    sides = np.full(1, 1e-2 * cubic_centimetres ** (1 / 3))
    return float(volume_per_watt(sides, sides, sides)[0])


@pytest.mark.parametrize("bracket, density", [(5.0, 0.25), (12.5, 0.4), (24.0, 0.7), (55.0, 1.1)])
def test_the_law_passes_near_each_bracket(bracket, density):
    # 20, 31, 34 and 50 cm³; the spread of a bracket is 40 %.
    assert power(bracket / density) == pytest.approx(bracket, rel=0.3)


@pytest.mark.parametrize("volume, expected", [(10.0, 2.5), (100.0, 110.0)])
def test_outside_the_brackets_power_goes_with_volume(volume, expected):
    # 0.25 W/cm³ · 10 cm³ and 1.1 W/cm³ · 100 cm³
    assert power(volume) == pytest.approx(expected)


def test_the_three_edges_count_alike():
    # 50 · 40 · 10 mm³ = 20 cm³: 5 W; at both mains ends, whatever is claimed
    for edges in ((50, 40, 10), (10, 50, 40)):
        assert ends(volume_per_watt, case(*edges), [watts(45.0)]) == pytest.approx([5.0] * 2)


def test_the_spread_is_that_of_a_bracket_times_the_slope():
    # ln of a coefficient of variation of 0.4: √ln 1.16 = 0.385; slope ln 11 / ln 2.5 = 2.617. The
    # edges add √3 · 0.1 mm/40 mm · 2.6 = 0.01.
    found = line(volume_per_watt, case(40, 40, 20), [watts(12.0)])["ends"]["low"]
    assert found["u_ln"] == pytest.approx(0.385 * 2.617, rel=0.02)


@pytest.mark.parametrize("sides", [(NAN, 0.04, 0.01), (0.05, NAN, 0.01), (0.05, 0.04, 0.0)])
def test_a_case_that_is_not_measured_on_all_sides_says_nothing(sides):
    assert np.isnan(volume_per_watt(*(np.array([side]) for side in sides))).all()


def test_it_is_silent_beside_the_mass_which_says_the_same():
    weighed = [*case(50, 40, 10), ("mass_total", 0.025, 1e-4)]
    found = line(volume_per_watt, weighed, [watts(12.0)])
    assert not found["used"] and "mass" in found["why_not"]


def test_a_small_case_whispers_against_a_large_claim_and_a_fitting_one_for_it():
    small, fitting = (weight(judge(case(*edges), [watts(45.0)]), ID)
                      for edges in ((20, 20, 20), (50, 48, 20)))
    assert -14.8 < small < -3 and 0 < fitting < 14.8           # 30 : 1 at most


def test_an_unmeasured_case_is_no_line_and_one_question():
    assert line(volume_per_watt, WIDE, [watts(5.0)]) is None
    asked = questions(volume_per_watt, WIDE, [watts(5.0)])
    assert len(asked) == 1 and "height, width and depth" in asked[0]
