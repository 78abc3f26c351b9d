"""Worked by hand: 0.95 · 650 V less the bus of 240 V mains, 339.4 V, and a spike of 40 V leaves
238.1 V, over 15 : 1, less 0.1 V: 15.77 V.
"""
import numpy as np
import pytest

from teardowns.engine.rules.voltage.switch_rating import switch_rating
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import ends, line, value

ID = "voltage/switch_rating"
INPUTS = {"switch_voltage_rating": 650.0, "primary_turns": 75.0, "secondary_turns": 5.0,
          "mains_voltage": 240.0, "power_factor_corrector": 0.0, "port_converter": 0.0}


def output(**changed):
    return value(switch_rating, *(INPUTS | changed).values())


def unit(rating, primary, secondary, *more):
    return [*WIDE, ("switch_voltage_rating", rating, 0.0), ("primary_turns", primary, 0.0),
            ("secondary_turns", secondary, 0.0), *more]


def moved(observations, voltage, plug="usb_c"):
    return weight(judge(observations, [(voltage, 1.0, NAN, plug)]), ID)


def test_a_650_volt_switch_at_15_to_1():
    assert output() == pytest.approx(15.77, rel=1e-3)


def test_fewer_primary_turns_leave_room_for_more_output():
    assert output(primary_turns=37.5) + 0.1 == pytest.approx(2 * (output() + 0.1))


@pytest.mark.parametrize("code", [code for code in INPUTS if code != "port_converter"])
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_a_converter_that_nobody_looked_for_is_none():
    assert output(port_converter=NAN) == output()


@pytest.mark.parametrize("code", ["port_converter", "power_factor_corrector"])
def test_a_converter_or_a_corrector_leaves_no_bound(code):
    assert np.isnan(output(**{code: 1.0}))


@pytest.mark.parametrize("rating", [0.0, 400.0, 500.0])
def test_a_rating_that_suits_no_such_mains_is_not_believed(rating):
    # V_CEO of a bipolar transistor, where V_CES counts, is 400 to 450 V.
    assert np.isnan(output(switch_voltage_rating=rating))


def test_a_400_volt_switch_suits_120_volts():
    assert output(switch_voltage_rating=400.0, mains_voltage=120.0) > 5


def test_turns_that_leave_less_than_every_charger_gives_are_not_believed():
    assert np.isnan(output(primary_turns=300.0))


def test_the_highest_rated_mains_voltage_counts():
    found = ends(switch_rating, unit(650.0, 75.0, 5.0), [(12.0, 1.0, NAN, "usb_c")])
    assert found == pytest.approx([15.77, 15.77], rel=1e-3)


def test_without_turns_there_is_no_line():
    assert line(switch_rating, [*WIDE, ("switch_voltage_rating", 650.0, 0.0)],
                [(12.0, 1.0, NAN, "usb_c")]) is None


# Honest designs, reflected voltage by hand: 12 V at 13 : 1 162 V, at 8 : 1 100 V; 20 V at 33 : 6
# 112 V, at 8 : 1 164 V; 24 V at 4 : 1 98 V; with 339 V and 80 V of spike below 0.95 of the rating.
@pytest.mark.parametrize("rating, primary, secondary, voltage, plug", [
    (600.0, 78.0, 6.0, 12.0, "usb_c"), (600.0, 80.0, 10.0, 12.0, "barrel"),
    (650.0, 33.0, 6.0, 20.0, "usb_c"), (650.0, 48.0, 6.0, 20.0, "usb_c"),
    (600.0, 60.0, 15.0, 24.0, "barrel")])
def test_honest_designs_are_not_refuted(rating, primary, secondary, voltage, plug):
    assert moved(unit(rating, primary, secondary), voltage, plug) > -1


def test_20_volts_through_the_turns_of_a_5_volt_stage_are_refuted():
    # 15 : 1 would reflect 301 V: 680 V across a 650 V switch.
    assert moved(unit(650.0, 75.0, 5.0), 20.0) < -10


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.9, 1.1, 301) * each for each in INPUTS.values()]
    one = switch_rating(*(column[[150]] for column in many))
    assert one.tobytes() == switch_rating(*many)[[150]].tobytes()
