"""Power Integrations AN-23 (7/99), step 6: a 40 V rectifier at 0.8 of its rating, 375 V of bus and
76.4 V of reflection belong to 5.0 V behind 0.5 V of drop.
"""
import numpy as np
import pytest

from teardowns.engine.rules.voltage.rectifier_usual_turns import rectifier_usual_turns
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, value

ID = "voltage/rectifier_usual_turns"
# The line takes 1.3 times the usual reflected voltage.
INPUTS = {"rectifier_voltage_rating": 32.0, "reflected_voltage": 76.4 / 1.3,
          "mains_voltage": 375.0 / 2**0.5, "power_factor_corrector": 0.0, "port_converter": 0.0}


def output(**changed):
    return value(rectifier_usual_turns, *(INPUTS | changed).values())


def unit(rating, *more):
    return [*WIDE, ("rectifier_voltage_rating", rating, 0.0), *more]


def moved(rating, voltage, plug="usb_c"):
    return weight(judge(unit(rating), [(voltage, 1.0, NAN, plug)]), ID)


def test_32_volts_suit_an_output_of_5_volts():
    # With 0.1 V in place of the note's 0.5 V: 5.0 + 0.4 · 375/451.4 = 5.33 V.
    assert output() == pytest.approx(5.33, rel=2e-3)


def test_a_higher_reflected_voltage_leaves_more():
    assert output(reflected_voltage=115.0) > 1.5 * output()


@pytest.mark.parametrize("code", [code for code in INPUTS if code != "port_converter"])
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


@pytest.mark.parametrize("code", ["port_converter", "power_factor_corrector"])
def test_a_converter_or_a_corrector_leaves_no_bound(code):
    assert np.isnan(output(**{code: 1.0}))


def test_a_rating_that_suits_no_charger_is_not_believed():
    assert np.isnan(output(rectifier_voltage_rating=20.0))


def test_with_the_turns_the_other_line_speaks():
    counted = unit(60.0, ("primary_turns", 60.0, 0.0), ("secondary_turns", 5.0, 0.0))
    assert not line(rectifier_usual_turns, counted, [(12.0, 1.0, NAN, "usb_c")])["used"]


def test_the_usual_reflected_voltage_alone_is_no_line():
    assert line(rectifier_usual_turns, WIDE, [(12.0, 1.0, NAN, "usb_c")]) is None


def test_the_highest_rated_mains_voltage_and_95_volts_of_reflection():
    # 1.3 · 95 = 123.5 V: (60 · 123.5 − 339.4 · 0.1)/(123.5 + 339.4) = 15.93 V.
    found = ends(rectifier_usual_turns, unit(60.0), [(12.0, 1.0, NAN, "usb_c")])
    assert found == pytest.approx([15.93, 15.93], rel=1e-3)


# Ratings that honest chargers use (common practice, no source): 12 V at 12 : 1 behind 45 V, 20 V at
# 7.5 : 1 behind 80 V, and so on.
@pytest.mark.parametrize("rating, voltage, plug", [
    (45.0, 9.0, "usb_c"), (45.0, 12.0, "usb_c"), (60.0, 12.0, "barrel"), (80.0, 20.0, "usb_c"),
    (100.0, 19.0, "barrel"), (100.0, 20.0, "usb_c"), (150.0, 24.0, "barrel")])
def test_honest_designs_are_not_refuted(rating, voltage, plug):
    assert moved(rating, voltage, plug) > -3


@pytest.mark.parametrize("rating", [30.0, 40.0, 45.0])
def test_20_volts_behind_a_rectifier_for_5_volts_are_refuted(rating):
    # At 20 V a 45 V rectifier would need 25 V = 339 V · 20.1 V/V_OR: 273 V of reflection.
    assert moved(rating, 20.0) < -10


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.9, 1.1, 301) * each for each in INPUTS.values()]
    one = rectifier_usual_turns(*(column[[150]] for column in many))
    assert one.tobytes() == rectifier_usual_turns(*many)[[150]].tobytes()
