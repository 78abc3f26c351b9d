import numpy as np
import pytest

from teardowns.logs.conditions import Cable, Conditions
from teardowns.logs.extracted import Unread
from tests.logs.load_tests.made import log, read, steps
from tests.logs.load_tests.test_overcurrent import staircase

CODE = "source_resistance"
LOADS = np.arange(0, 2.51, 0.25)


def sloping(resistance, loads=LOADS):
    # V stays in regulation: the floor is 4.75 V.
    time, voltage, current = steps(loads, 20, resistance)
    return log(time, output_voltage=voltage, output_current=current)


def test_it_is_minus_the_slope_of_voltage_over_current():
    # Basis of load tests, case 11-b: V = 5.10 − 0.12·I.
    assert read(sloping(0.12), code=CODE).value == pytest.approx(0.120, abs=1e-6)


def test_a_compensated_cable_is_a_negative_resistance():
    found = read(sloping(-0.06), code=CODE)
    assert found.value == pytest.approx(-0.06, abs=1e-6)
    assert "makes up for a cable" in found.working[1]


def test_the_knee_of_the_limit_is_left_out():
    sweep = staircase("constant_current")                # a port of 50 mΩ
    found = read(sweep.channels, sweep.conditions, CODE)
    assert found.value == pytest.approx(0.05, abs=2e-3)


def test_a_wild_reading_does_not_move_it():
    channels = sloping(0.12)
    channels.channels[0].values[45:60] = 5.4             # most of a step was read wrongly
    assert read(channels, code=CODE).value == pytest.approx(0.12, abs=5e-3)


def test_the_cable_is_not_the_ports():
    stated = Conditions(set_voltage=5.0, cable=Cable(0.0, 1e-6, 0.04))
    assert read(sloping(0.12), stated, CODE).value == pytest.approx(0.08, abs=1e-6)


def test_two_loads_show_no_slope():
    assert isinstance(read(sloping(0.05, [0, 2.0]), code=CODE), Unread)
