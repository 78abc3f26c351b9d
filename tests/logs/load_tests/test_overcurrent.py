import numpy as np
import pytest

from teardowns.logs.extracted import Extracted, Unread
from tests.logs.load_tests.made import log, read, steps
from tests.logs.staircases import KINDS, Bench, Port, logged, stepped

RNG = np.random.default_rng(11)


def staircase(kind, is_set_logged=True, trip=2.3, size=0.1, most=3.2, is_mains_logged=False):
    """Basis of load tests, case 11-f: a staircase in steps of 0.1 A that trips at 2.3 A."""
    loads = np.round(np.arange(0.0, most, size), 3)
    asked, time = stepped(RNG, loads, 20.0, 0.5)
    return logged(Port(5.0, trip, kind), asked, time, Bench(
        is_set_logged=is_set_logged, is_mains_logged=is_mains_logged), RNG)


@pytest.mark.parametrize("is_set_logged", (True, False))
@pytest.mark.parametrize("kind", KINDS)
def test_the_over_current_point_is_the_largest_load_with_the_voltage_up(kind, is_set_logged):
    sweep = staircase(kind, is_set_logged)
    found = read(sweep.channels, sweep.conditions, "overcurrent_point")
    assert found.value == pytest.approx(2.3, abs=0.001)
    assert found.conditions["output_voltage"] == 5.0


@pytest.mark.parametrize("is_set_logged", (True, False))
@pytest.mark.parametrize("kind", ("hiccup", "foldback"))
def test_the_power_that_was_lost_is_what_was_asked_for(kind, is_set_logged):
    sweep = staircase(kind, is_set_logged)
    found = read(sweep.channels, sweep.conditions, "failed_power")
    assert found.value == pytest.approx(2.4 * 5.0, abs=0.02)      # the step after 2.3 A


@pytest.mark.parametrize("is_set_logged", (True, False))
def test_an_output_that_stays_away_lost_the_load_if_the_mains_stayed(is_set_logged):
    sweep = staircase("latch_off", is_set_logged, is_mains_logged=True)
    found = read(sweep.channels, sweep.conditions, "failed_power")
    assert found.value == pytest.approx(2.4 * 5.0, abs=0.02)
    assert "taken for granted" in found.working[-1]


def test_that_it_stays_away_is_not_held_against_it_on_timing_alone():
    sweep = staircase("latch_off")
    assert "plugged in" in read(sweep.channels, sweep.conditions, "failed_power").why
    found = read(sweep.channels, sweep.conditions, "overcurrent_point")
    assert "taken for granted" in found.working[-1]


def test_without_a_set_current_a_current_limit_lost_what_it_still_gave():
    sweep = staircase("constant_current", is_set_logged=False, trip=2.35)
    found = read(sweep.channels, sweep.conditions, "failed_power")
    assert found.value == pytest.approx(2.35 * 5.0, abs=0.02)


def test_the_step_between_two_loads_is_in_the_budget():
    sweep = staircase("hiccup")
    found = read(sweep.channels, sweep.conditions, "overcurrent_point")
    # The limit lies anywhere between 2.3 and 2.4 A: 0.1 A/√3 about the lower end.
    assert dict(found.budget)["step between the loads"] == pytest.approx(0.1 / 3 ** 0.5, abs=1e-3)


@pytest.mark.parametrize("code", ("overcurrent_point", "failed_power", "after_limit"))
def test_a_sweep_that_ends_before_its_limit_lost_nothing(code):
    time, voltage, current = steps(np.arange(0, 2.4, 0.1), 20)
    channels = log(time, output_voltage=voltage, output_current=current)
    assert isinstance(read(channels, code=code), Unread)


def test_a_load_that_is_asked_for_and_dips_a_quarter_of_the_time_is_lost():
    # Case 11-e: 2.4 A at 5 V nominal = 12 W.
    time = np.arange(2400.0)
    current = np.repeat([1.0, 2.0, 2.4], 800)
    voltage = np.repeat([4.95, 4.86, 4.80], 800)
    voltage[1600:][np.arange(800) % 4 == 3] = 4.30
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, code="failed_power")
    assert isinstance(found, Extracted) and found.value == pytest.approx(12.0, abs=0.01)
    assert "25 % of the time" in found.working[1]
