import numpy as np
import pytest

from teardowns.logs.load_tests.steps import changes, load_curve, theil_sen
from tests.logs.load_tests.made import log, steps, test_of


def of(loads, dwell=20, **more):
    time, voltage, current = steps(loads, dwell, **more)
    return test_of(log(time, output_voltage=voltage, output_current=current))


def test_a_change_is_the_first_row_of_the_new_load():
    assert list(np.flatnonzero(changes(of([0, 1.0, 2.0])))) == [20, 40]


def test_what_an_output_draws_while_it_is_away_is_no_change_of_load():
    time, voltage, current = steps([0, 2.0, 2.0], 20)
    voltage[45:50], current[45:50] = 0.1, 0.0
    test = test_of(log(time, output_voltage=voltage, output_current=current))
    assert list(np.flatnonzero(changes(test))) == [20]


def test_the_load_curve_has_a_point_for_each_load():
    curve = load_curve(of([0, 0.5, 1.0, 2.0], resistance=0.1))
    assert curve.current == pytest.approx([0, 0.5, 1.0, 2.0])
    assert curve.voltage == pytest.approx([5.1, 5.05, 5.0, 4.9])


def test_one_load_is_no_curve():
    assert load_curve(of([1.0])) is None


def test_the_median_slope_is_deaf_to_a_wild_point():
    x = np.arange(9.0)
    y = 5.10 - 0.12 * x
    y[4] = 40.0
    assert theil_sen(x, y) == pytest.approx((-0.12, 5.10))


def test_points_at_one_place_have_no_slope():
    assert np.isnan(theil_sen(np.ones(4), np.arange(4.0))[0])
