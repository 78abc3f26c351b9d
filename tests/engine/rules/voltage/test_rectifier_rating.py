"""Power Integrations AN-32, p. 15: 5 V at 15 : 1 and a bus of 375 V put 30 V on the rectifier."""
import numpy as np
import pytest

from teardowns.engine.rules.voltage.rectifier_rating import rectifier_rating
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "voltage/rectifier_rating"
INPUTS = {"rectifier_voltage_rating": 30.0, "primary_turns": 75.0, "secondary_turns": 5.0,
          "mains_voltage": 375.0 / 2**0.5, "power_factor_corrector": 0.0, "port_converter": 0.0}


def output(**changed):
    return value(rectifier_rating, *(INPUTS | changed).values())


def unit(rating, primary, secondary, *more):
    return [*WIDE, ("rectifier_voltage_rating", rating, 0.0), ("primary_turns", primary, 0.0),
            ("secondary_turns", secondary, 0.0), *more]


def moved(observations, voltage, plug="usb_c"):
    return weight(judge(observations, [(voltage, 1.0, NAN, plug)]), ID)


def test_30_volts_suit_an_output_of_5_volts():
    assert output() == pytest.approx(5.0)


def test_the_whole_rating_counts():
    # 25 V of bus through the turns whatever the rating.
    assert output(rectifier_voltage_rating=60.0) == pytest.approx(35.0)


@pytest.mark.parametrize("code", [code for code in INPUTS if code != "port_converter"])
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_a_converter_that_nobody_looked_for_is_none():
    assert output(port_converter=NAN) == output()


@pytest.mark.parametrize("code", ["port_converter", "power_factor_corrector"])
def test_a_converter_or_a_corrector_leaves_no_bound(code):
    assert np.isnan(output(**{code: 1.0}))


def test_a_rating_below_what_the_bus_puts_on_it_is_not_believed():
    assert np.isnan(output(rectifier_voltage_rating=20.0))
    assert np.isnan(output(rectifier_voltage_rating=28.0))


def test_the_highest_rated_mains_voltage_counts():
    # 60 V − √2 · 240 V/12 = 31.72 V.
    found = ends(rectifier_rating, unit(60.0, 60.0, 5.0), [(12.0, 1.0, NAN, "usb_c")])
    assert found == pytest.approx([31.72, 31.72], rel=1e-3)


def test_without_a_rating_there_is_no_line_and_a_question():
    claims = [(12.0, 1.0, NAN, "usb_c")]
    bare = [*WIDE, ("primary_turns", 75.0, 0.0), ("secondary_turns", 5.0, 0.0)]
    assert line(rectifier_rating, bare, claims) is None
    assert any("output rectifier" in text for text in questions(rectifier_rating, bare, claims))


# Honest: 12 V at 12 : 1 is 12 + 28.3 = 40.3 V; 20 V at 33 : 6 is 81.7 V; 19 V at 6 : 1 75.6 V;
# 24 V at 4.5 : 1 99.4 V, behind the next ratings.
@pytest.mark.parametrize("rating, primary, secondary, voltage, plug", [
    (45.0, 72.0, 6.0, 12.0, "usb_c"), (100.0, 33.0, 6.0, 20.0, "usb_c"),
    (100.0, 36.0, 6.0, 19.0, "barrel"), (150.0, 45.0, 10.0, 24.0, "barrel")])
def test_honest_designs_are_not_refuted(rating, primary, secondary, voltage, plug):
    assert moved(unit(rating, primary, secondary), voltage, plug) > -1


def test_20_volts_behind_a_40_volt_rectifier_are_refuted():
    # 13 : 1: 20 + 26.1 = 46.1 V on 40 V; 13.9 V are left.
    assert moved(unit(40.0, 78.0, 6.0), 20.0) < -20


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.9, 1.1, 301) * each for each in INPUTS.values()]
    one = rectifier_rating(*(column[[150]] for column in many))
    assert one.tobytes() == rectifier_rating(*many)[[150]].tobytes()


def test_a_65_watt_design_keeps_all_its_voltages():
    claims = [(v, a, NAN, "usb_c") for v, a in [(20.0, 3.25), (15.0, 3.0), (9.0, 3.0)]]
    done = judge(unit(100.0, 33.0, 6.0), claims)
    assert all(weight(done, ID, claim) > 0 for claim in range(3))


def test_12_volts_behind_a_30_volt_rectifier_are_refuted():
    # 15 : 1 from 339 V leaves 30 − 22.6 = 7.4 V.
    assert moved(unit(30.0, 75.0, 5.0), 12.0) < -20
