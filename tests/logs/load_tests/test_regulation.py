import numpy as np
import pytest

from teardowns.logs.load_tests.regulation import floor_voltage, noise_of, time_weights


@pytest.mark.parametrize("nominal, lowest, floor", [
    (5.0, None, 4.75),        # USB 2.0, 7.2.2: 4.75 V at a port; 0.95 of 5 V
    (20.0, None, 19.0),       # contract voltage − 5 % (basis of load tests)
    (5.0, 4.9, 4.9), (12.0, 10.8, 11.4)])
def test_the_floor_is_0_95_of_the_nominal_or_the_sheets_own(nominal, lowest, floor):
    assert floor_voltage(nominal, lowest) == pytest.approx(floor)


def test_a_row_stands_for_half_the_way_to_either_neighbour():
    weight, is_break = time_weights(np.array([0.0, 1.0, 2.0, 4.0, 5.0]), 10.0)
    assert list(weight) == [1.0, 1.0, 1.5, 1.5, 1.0] and not is_break.any()


def test_beside_a_hole_it_stands_for_half_a_usual_step():
    weight, is_break = time_weights(np.array([0.0, 1.0, 2.0, 60.0, 61.0]), 5.0)
    assert weight.sum() == 5.0
    assert list(is_break) == [False, False, False, True, False]


def test_noise_is_deaf_to_steps():
    rng = np.random.default_rng(2)
    values = np.repeat([0.0, 5.0, 9.0], 2000) + 0.01 * rng.standard_normal(6000)
    assert noise_of(values, 0.0) == pytest.approx(0.01, rel=0.1)


def test_noise_of_a_slow_meter_is_that_of_its_fresh_readings():
    rng = np.random.default_rng(2)
    values = np.repeat(0.01 * rng.standard_normal(2000), 3)
    assert noise_of(values, 1e-4) == pytest.approx(0.01, rel=0.1)
