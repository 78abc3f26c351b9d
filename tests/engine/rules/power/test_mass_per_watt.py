"""Specific power by bracket: 0.20 W/g to 7 W, 0.28 for 10 to 15 W, 0.40 for 18 to 30 W, 0.55 for 30
to 100 W (from memory; there is no published table).
"""
import numpy as np
import pytest

from teardowns.engine.rules.power.mass_per_watt import mass_per_watt
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions

ID = "power/mass_per_watt"
MOST = 13.8                         # decibans, 24 : 1
CLAIMS = [watts(printed) for printed in (1.0, 5.0, 18.0, 45.0, 100.0, 200.0)]


def unit(mass, *observations):
    return [*WIDE, ("mass_total", mass, 0.001 * mass), *observations]


def power(mass, ballast=0.0):
    return float(mass_per_watt(np.array([mass]), np.array([ballast]))[0])


@pytest.mark.parametrize("bracket, watts_per_gram", [(5.0, 0.20), (12.5, 0.28), (24.0, 0.40),
                                                     (55.0, 0.55)])
def test_the_law_passes_near_each_bracket(bracket, watts_per_gram):
    # A unit of the bracket's specific power: 5 W in 25 g, 12.5 W in 44.6 g, 24 W in 60 g, 55 W
    # in 100 g. The spread of a bracket is 30 to 40 %.
    assert power(1e-3 * bracket / watts_per_gram) == pytest.approx(bracket, rel=0.15)


@pytest.mark.parametrize("grams, expected", [(12.5, 2.5), (200.0, 110.0)])
def test_outside_the_brackets_specific_power_is_constant(grams, expected):
    # 0.20 W/g · 12.5 g and 0.55 W/g · 200 g
    assert power(1e-3 * grams) == pytest.approx(expected)


def test_parts_without_function_are_taken_off():
    assert power(0.090, 0.040) == pytest.approx(power(0.050))


@pytest.mark.parametrize("mass, ballast", [
    (NAN, 0.0), (0.05, NAN), (0.04, 0.05), (0.05, 0.05), (0.0, 0.0)])
def test_unknown_or_impossible_masses_say_nothing(mass, ballast):
    assert np.isnan(power(mass, ballast))


def test_the_claim_does_not_choose_the_bracket():
    seen = [*WIDE, ("mass_total", 0.045, 0.0002)]
    medians = {judge(seen, [watts(12.0), watts(x)]).judged.capability[0, 0, 0].round(1)
               for x in (12.0, 14.0)}
    assert max(medians) - min(medians) < 0.5


def test_ballast_is_taken_off():
    # 78.4 g in all of which 27.2 g do nothing: 51.2 g, (51.2/25)^(ln 11/ln 4) = 3.455, 17.3 W.
    assert power(0.0784, 0.0272) == pytest.approx(17.28, rel=1e-3)


def test_more_mass_is_more_power_up_to_the_heaviest():
    masses = np.geomspace(1e-4, 10, 200)
    assert (np.diff(mass_per_watt(masses, np.zeros(200))) > 0).all()


def test_no_claim_chooses_the_bracket_and_no_mains_end_matters():
    # Half way between 25 g and 100 g in ln: √(5 W · 55 W) = 16.58 W.
    for claim in CLAIMS:
        assert ends(mass_per_watt, unit(0.05), [claim]) == pytest.approx([16.58] * 2, rel=1e-3)


def test_ballast_that_was_not_looked_for_is_not_taken_off_and_one_found_is():
    iron = ("mass_ballast", 0.025, 0.0001)
    assert ends(mass_per_watt, unit(0.05, iron), [watts(5.0)])[0] == pytest.approx(5.0)


def test_a_light_unit_speaks_against_a_large_claim_and_a_fitting_one_for_it():
    light, fitting = (weight(judge(unit(mass), [watts(45.0)]), ID) for mass in (0.02, 0.09))
    assert light < -3 < 0 < fitting


def test_ballast_turns_the_scale():
    # 100 g speak of 55 W, 70 g of iron taken off they speak of 6.9 W.
    iron = ("mass_ballast", 0.07, 0.0005)
    counted, taken_off = (weight(judge(unit(0.1, *found), [watts(45.0)]), ID)
                          for found in ((), (iron,)))
    assert taken_off < -3 < 0 < counted


def test_what_may_be_ballast_supports_less_than_what_lacks_refutes():
    # 51.2 g speak of 17.3 W. Beside it, 0.1 g of iron taken off: ballast was looked for.
    def pushes(*found):
        done = judge(unit(0.0512, *found), [watts(10.0), watts(70.0)])
        return [weight(done, ID, i) for i in (0, 1)]

    for_small, against_large = pushes()
    looked_for, against_large_too = pushes(("mass_ballast", 0.0001, 0.00001))
    assert 0 < for_small < looked_for - 0.3
    assert against_large == pytest.approx(against_large_too, abs=0.3) and against_large < -5


def test_practice_alone_stays_within_24_to_1_and_never_condemns_or_supports():
    words = set()
    for mass in np.geomspace(0.001, 9.0, 30):
        done = judge(unit(mass), CLAIMS)
        words |= {WORDS[word] for word in done.judged.verdict}
        assert all(abs(weight(done, ID, i)) <= MOST for i in range(len(CLAIMS)))
    assert words == {"no evidence", "possible", "doubtful"}


def test_a_unit_that_was_not_weighed_has_no_line_and_is_to_be_weighed():
    assert line(mass_per_watt, WIDE, [watts(5.0)]) is None
    assert any("weigh it" in text for text in questions(mass_per_watt, WIDE, [watts(5.0)]))
