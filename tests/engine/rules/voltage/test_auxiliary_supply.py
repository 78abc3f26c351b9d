"""Worked by hand. By turns, 28 V with 5 and 12: 28.7 · 5/12 − 0.45 = 11.51 V. By the window of 8 to
28 V and 5 V without load: 5.45 · 28.7/8.7 − 0.45 = 17.53 V.
"""
import numpy as np
import pytest

from teardowns.engine.rules.voltage.auxiliary_supply import auxiliary_supply
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import line, questions, value

ID = "voltage/auxiliary_supply"
INPUTS = {"bias_regulator": 0.0, "controller_supply_high": 28.0, "controller_supply_low": 8.0,
          "output_voltage_no_load": 5.0, "secondary_turns": 5.0, "auxiliary_turns": 12.0,
          "port_converter": 0.0, "photographed_sides": 2.0}
TURNS = {"secondary_turns": NAN, "auxiliary_turns": NAN}
BOTH_SIDES = ("photographed_sides", 2.0, 0.0)
NO_REGULATOR = ("bias_regulator", 0.0, 0.0)
WINDOW = (("controller_supply_low", 8.0, 0.1), ("controller_supply_high", 28.0, 0.3))
AT_5V = ("output_voltage_no_load", 5.1, 0.02)


def output(**changed):
    return value(auxiliary_supply, *(INPUTS | changed).values())


def moved(observations, voltage, plug="usb_c"):
    return weight(judge([*WIDE, BOTH_SIDES, *observations], [(voltage, 1.0, NAN, plug)]), ID)


def test_by_turns():
    assert output() == pytest.approx(11.51, rel=1e-3)


def test_by_the_window_where_the_turns_are_unknown():
    assert output(**TURNS) == pytest.approx(17.53, rel=1e-3)


@pytest.mark.parametrize("code", ["bias_regulator", "controller_supply_high"])
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


@pytest.mark.parametrize("code", ["controller_supply_low", "output_voltage_no_load"])
def test_without_turns_the_whole_window_and_the_voltage_are_needed(code):
    assert np.isnan(output(**TURNS, **{code: NAN}))
    assert output(**{code: NAN}) == output()


@pytest.mark.parametrize("code", ["bias_regulator", "port_converter"])
def test_a_regulator_or_a_converter_leaves_no_bound(code):
    assert np.isnan(output(**{code: 1.0}))


@pytest.mark.parametrize("sides", [0.0, 1.0, NAN])
def test_what_one_side_of_the_board_does_not_show_is_not_taken_as_absent(sides):
    assert np.isnan(output(photographed_sides=sides))


def test_a_window_upside_down_is_not_believed():
    assert np.isnan(output(**TURNS, controller_supply_low=30.0))


def test_a_regulator_that_nobody_looked_for_is_no_line_and_a_question():
    claims = [(20.0, 1.0, NAN, "usb_c")]
    assert line(auxiliary_supply, [*WIDE, *WINDOW, AT_5V], claims) is None
    asked = questions(auxiliary_supply, [*WIDE, *WINDOW, AT_5V], claims)
    assert any("looked for" in text for text in asked)


def test_the_supply_window_is_never_assumed():
    claims = [(20.0, 1.0, NAN, "usb_c")]
    assert line(auxiliary_supply, [*WIDE, NO_REGULATOR, AT_5V], claims) is None


def test_without_turns_and_without_the_voltage_at_the_port_it_is_silent():
    found = line(auxiliary_supply, [*WIDE, BOTH_SIDES, NO_REGULATOR, *WINDOW],
                 [(20.0, 1.0, NAN, "usb_c")])
    assert not found["used"] and "turns" in found["why_not"]


@pytest.mark.parametrize("no_load, voltage", [(12.1, 12.0), (19.3, 19.0), (24.2, 24.0)])
def test_an_adapter_of_one_voltage_is_not_touched(no_load, voltage):
    fixed = [NO_REGULATOR, *WINDOW, ("output_voltage_no_load", no_load, 0.02)]
    assert moved(fixed, voltage, "barrel") > -1


def test_20_volts_are_doubtful_and_12_are_not():
    # From 5.1 V the window reaches to 17.9 V.
    seen = [NO_REGULATOR, *WINDOW, AT_5V]
    assert moved(seen, 20.0) < 0 < moved(seen, 12.0)


def test_a_narrow_window_refutes_20_volts_as_far_as_a_part_may_be_overlooked():
    # 9 to 20 V: 5.55 · 20.7/9.7 − 0.45 = 11.4 V.
    narrow = [NO_REGULATOR, ("controller_supply_low", 9.0, 0.1),
              ("controller_supply_high", 20.0, 0.2), AT_5V]
    assert -20 < moved(narrow, 20.0) < -5


def test_a_wide_window_leaves_20_volts_open():
    # 9 to 80 V, of controllers made for outputs that switch.
    wide = [NO_REGULATOR, ("controller_supply_low", 9.0, 0.1),
            ("controller_supply_high", 80.0, 1.0), AT_5V]
    assert moved(wide, 20.0) > -1


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.9, 1.1, 301) * each for each in INPUTS.values()]
    one = auxiliary_supply(*(column[[150]] for column in many))
    assert one.tobytes() == auxiliary_supply(*many)[[150]].tobytes()
