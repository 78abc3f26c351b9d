import numpy as np
import pytest

from teardowns.logs.extracted import Told, Unread
from teardowns.logs.load_tests.after_limit import SAYS, kind_of, swings
from tests.logs.load_tests.made import log, read, steps
from tests.logs.load_tests.test_overcurrent import staircase
from tests.logs.staircases import KINDS


@pytest.mark.parametrize("is_set_logged", (True, False))
@pytest.mark.parametrize("kind", KINDS)
def test_each_behaviour_is_told_from_its_staircase(kind, is_set_logged):
    # Basis of load tests, case 11-f.
    sweep = staircase(kind, is_set_logged)
    found = read(sweep.channels, sweep.conditions, "after_limit")
    assert isinstance(found, Told) and found.word == kind and found.says == SAYS[kind]


def test_a_log_that_never_reached_the_limit_does_not_tell():
    time, voltage, current = steps([0, 1, 2], 30)
    found = read(log(time, output_voltage=voltage, output_current=current), code="after_limit")
    assert isinstance(found, Unread) and "raise the load" in found.why.lower()


def test_a_voltage_that_only_began_to_fall_does_not_tell():
    assert kind_of(np.full(30, 0.85), np.full(30, 1.0))[0] == ""


@pytest.mark.parametrize("current, word", [(0.79, "foldback"), (0.81, "constant_current")])
def test_the_line_between_folding_and_holding_is_eight_tenths(current, word):
    # Definition of the basis: median current below 0.8 of the over-current point folds.
    assert kind_of(np.full(30, 0.4), np.full(30, current))[0] == word


def test_swings_count_only_between_off_and_up():
    assert swings(np.array([0.1, 0.3, 0.6, 0.4, 0.1, 0.9])) == 3
    assert swings(np.array([0.1, 0.3, 0.4, 0.3, 0.1])) == 0
