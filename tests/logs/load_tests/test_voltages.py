import numpy as np
import pytest

from teardowns.logs.load_tests.voltages import (
    levels_of,
    light_rows,
    nominal_of,
    setting_of_rows,
)


@pytest.mark.parametrize("seen, nominal", [
    (5.12, 5.0), (9.2, 9.0), (11.9, 12.0), (20.1, 20.0), (19.05, 19.0),
    (6.5, None),              # near no customary voltage
    (19.5, None),             # 19 or 20 V: not told
])
def test_the_nominal_voltage_is_the_one_customary_voltage_nearby(seen, nominal):
    assert nominal_of(seen) == nominal


def test_two_settings_are_two_levels():
    voltage = np.concatenate([np.full(50, 5.1), np.full(50, 9.1)])
    assert list(levels_of(voltage)) == [5.1, 9.1]


def test_a_voltage_seen_in_passing_is_no_level():
    voltage = np.concatenate([np.full(500, 5.1), [7.0, 9.1, 12.0]])
    assert list(levels_of(voltage)) == [5.1]


def test_rows_belong_to_the_level_last_seen_without_load():
    voltage = np.array([5.1, 5.1, 4.9, 0.2, 9.1, 9.1, 8.9, 4.0])
    light = np.array([1, 1, 0, 0, 1, 1, 0, 0], bool)
    assert list(setting_of_rows(voltage, light, np.array([5.1, 9.1]))) == [0, 0, 0, 0, 1, 1, 1, 1]


def test_a_row_above_its_level_belongs_to_none():
    voltage = np.array([5.1, 5.1, 9.1])
    assert list(setting_of_rows(voltage, np.array([True, True, False]), np.array([5.1]))) == [
        0, 0, -1]


def test_an_output_that_restarts_shows_no_light_load():
    voltage = np.array([5.1, 5.1, 5.1, 5.1, 3.0, 0.5, 3.5, 0.2])
    current = np.array([0, 0, 0, 0, 0, 0, 0, 0.0])
    assert list(light_rows(voltage, current, None, 1e-3)) == [1, 1, 1, 0, 0, 0, 0, 0]
