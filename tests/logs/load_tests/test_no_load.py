import numpy as np
import pytest

from teardowns.logs.extracted import Unread
from tests.logs.load_tests.made import log, read, steps


def with_no_load(seconds, drawn=0.08):
    current = np.concatenate([np.zeros(seconds), np.full(60, 2.0)])
    return log(np.arange(len(current)), output_voltage=np.where(current > 0, 4.9, 5.12),
               output_current=current, input_power=np.where(current > 0, 12.0, drawn))


def test_the_no_load_voltage_is_the_mean_without_load():
    found = read(with_no_load(90), code="output_voltage_no_load")
    assert found.value == pytest.approx(5.12) and found.end == 89


def test_no_load_power_is_the_mean_of_a_minute_or_more():
    assert read(with_no_load(90), code="no_load_power").value == pytest.approx(0.08)


def test_ten_seconds_without_load_are_too_few():
    found = read(with_no_load(10), code="no_load_power")
    assert isinstance(found, Unread) and "10 s" in found.why


def test_a_log_that_is_always_loaded_has_no_no_load_voltage():
    channels = log(np.arange(900.0), output_voltage=5.0, output_current=2.0)
    assert isinstance(read(channels, code="output_voltage_no_load"), Unread)


def test_an_output_that_is_off_is_not_without_load():
    time, voltage, current = steps([0, 1.0, 2.0, 0], 60)
    voltage[200:] = 0.0
    found = read(log(time, output_voltage=voltage, output_current=current),
                 code="output_voltage_no_load")
    assert found.value == pytest.approx(5.1)


def test_the_offered_voltage_is_the_highest_that_stood():
    voltage = np.full(300, 5.0)
    voltage[100:200], voltage[250] = 9.05, 20.0          # one row of overshoot
    found = read(log(np.arange(300.0), output_voltage=voltage), code="offered_voltage")
    assert found.value == pytest.approx(9.05)
