"""Textbook: Erickson & Maksimovic, 2nd ed., ch. 14 (from memory): 100 W from 200 V at D = 0.4 with
a peak of 1.5 A and a ripple of 1/3 of it; with 0.4 of it, 96 W.
"""
import numpy as np
import pytest

from teardowns.engine.rules.power.current_sense_alone import current_sense_alone
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "power/current_sense_alone"
# √2·142.553 − 1.6 = 200 V; V_OR = 133.33 V gives D = 0.4.
INPUTS = {"current_sense_resistance": 0.5, "current_sense_threshold": 0.75,
          "reflected_voltage": 400 / 3, "efficiency": 0.9725, "mains_voltage": 201.6 / 2**0.5,
          "power_factor_corrector": 0.0}


def output(**changed):
    return value(current_sense_alone, *(INPUTS | changed).values())


def sensed(ohms, *more):
    return [*WIDE, ("current_sense_resistance", ohms, 0.01 * ohms), *more]


def test_the_textbook_converter_with_a_little_more_ripple():
    # 200 V · 0.4 · 1.5 A · (1 − 0.2) = 96 W.
    assert output() == pytest.approx(96.0)


def test_it_goes_with_the_current():
    assert output(current_sense_resistance=1.0) == pytest.approx(output() / 2)


@pytest.mark.parametrize("code", INPUTS)
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_a_corrector_leaves_no_bound():
    assert np.isnan(output(power_factor_corrector=1.0))


def test_the_power_rises_with_the_mains_but_less_than_in_proportion():
    low, high = ends(current_sense_alone, sensed(1.0), [watts(12.0)])
    assert low < high < 2 * low


def test_with_the_inductance_the_other_line_speaks():
    both = sensed(1.0, ("primary_inductance", 1e-3, 1e-5))
    assert not line(current_sense_alone, both, [watts(12.0)])["used"]


def test_without_a_resistor_there_is_no_line_and_a_question():
    assert line(current_sense_alone, WIDE, [watts(12.0)]) is None
    assert any("sense resistor" in text
               for text in questions(current_sense_alone, WIDE, [watts(12.0)]))


# Honest: a 20 W design, 23 W from a valley of 85 V at V_OR = 95 V (D = 0.53) with a ripple of 0.7
# has a peak of 23/(85·0.53·0.65) = 0.79 A, limited at 0.9 A; 65 W likewise: 2.4 A, 2.8 A. A 5 W
# design in discontinuous conduction, 6.7 W at 65 kHz in 2 mH, 0.32 A, limited at 0.36 A.
@pytest.mark.parametrize("claim, peak", [(5.0, 0.36), (20.0, 0.9), (65.0, 2.8)])
@pytest.mark.parametrize("threshold", [0.5, 0.75, 1.0])
def test_honest_designs_are_not_refuted_whatever_their_threshold(claim, peak, threshold):
    assert weight(judge(sensed(threshold / peak), [watts(claim)]), ID) > -3


def test_the_resistor_of_a_10_watt_stage_speaks_against_65_watts():
    # 1.5 Ω: 0.5 A, about 21 W at 100 V.
    assert weight(judge(sensed(1.5), [watts(65.0)]), ID) < -20


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.5, 2, 301) * each for each in INPUTS.values()]
    one = current_sense_alone(*(column[[150]] for column in many))
    assert one.tobytes() == current_sense_alone(*many)[[150]].tobytes()
