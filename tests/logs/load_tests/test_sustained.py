import numpy as np
import pytest

from teardowns.logs.conditions import Accuracy, Cable, Conditions
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.sustained import ranges
from tests.logs.load_tests.made import STATED, log, read, steps

CODE = "sustained_power"


def three_loads():
    """Basis of load tests, case 11-e: 800 s each at 1, 2 and 2.4 A, the last dipping to 4.60 V."""
    time = np.arange(2400.0)
    current = np.repeat([1.0, 2.0, 2.4], 800)
    voltage = np.repeat([4.95, 4.86, 4.80], 800)
    voltage[1600:][np.arange(800) % 4 == 3] = 4.60
    return log(time, output_voltage=voltage, output_current=current)


def test_the_load_that_dips_is_not_the_one_that_was_held():
    found = read(three_loads(), code=CODE)
    # 4.86 V · 2 A = 9.72 W, by hand; 2.4 A was below 4.75 V for a quarter of the time.
    assert found.value == pytest.approx(9.72, abs=1e-6)
    assert found.conditions == {"output_voltage": 5.0, "duration": 600.0}


def test_its_window_lies_in_that_load():
    found = read(three_loads(), code=CODE)
    assert found.start >= 800 and found.end <= 1599
    assert found.end - found.start == pytest.approx(600, abs=2)


def test_the_uncertainty_is_that_of_both_meters():
    found = read(three_loads(), code=CODE)
    # 0.5 % + 2 digits of 1 mV on 4.86 V: 26.3 mV/√3 = 15.18 mV; on 2 A: 12 mA/√3 = 6.93 mA.
    # u = √((2·0.01518)² + (4.86·0.00693)²) = √(0.03036² + 0.03367²) = 0.0453 W, half digits less.
    assert found.uncertainty == pytest.approx(0.0453, abs=2e-4)


def test_stated_accuracy_takes_the_place_of_the_assumed_one():
    stated = Conditions(set_voltage=5.0, accuracies={
        "output_voltage": Accuracy(0.0, 0.01), "output_current": Accuracy(0.0, 0.0)})
    # 10 mV/√3 · 2 A = 11.5 mW
    assert read(three_loads(), stated, CODE).uncertainty == pytest.approx(0.0115, abs=2e-4)


def test_steps_that_are_shorter_than_the_window_hold_nothing():
    time, voltage, current = steps([0, 1, 2], 300)
    found = read(log(time, output_voltage=voltage, output_current=current), code=CODE)
    assert isinstance(found, Unread) and "600 s" in found.why


def test_a_window_never_straddles_two_loads():
    # 500 s at 2 A and 500 s at 1.8 A: 11 % apart, neither held for 600 s.
    time, voltage, current = steps([0, 2.0, 1.8, 0], 500)
    found = read(log(time, output_voltage=voltage, output_current=current), code=CODE)
    assert isinstance(found, Unread)


def test_exactly_ten_minutes_of_rows_are_ten_minutes():
    time, voltage, current = steps([0, 2.0, 1.0, 0], 600, step=10.0)
    found = read(log(time, output_voltage=voltage, output_current=current), code=CODE)
    assert found.value == pytest.approx(2.0 * 5.0)


def test_what_was_not_recorded_was_not_held():
    time, voltage, current = steps([0, 1.0, 2.0], 800)
    kept = (time < 2000) | (time > 2060)              # a minute is missing in the last load
    channels = log(time[kept], output_voltage=voltage[kept], output_current=current[kept])
    assert read(channels, code=CODE).value == pytest.approx(1.0 * 5.05)


def test_a_blank_cell_or_two_break_nothing():
    time, voltage, current = steps([0, 1.0, 2.0], 700)
    voltage[1500], current[1600:1602] = np.nan, np.nan
    channels = log(time, output_voltage=voltage, output_current=current)
    assert read(channels, code=CODE).value == pytest.approx(10.0)


def test_one_reset_ends_a_window():
    time, voltage, current = steps([0, 1.0, 2.0], 800)
    voltage[2000], current[2000] = 0.3, 0.1           # 400 s into the last load
    channels = log(time, output_voltage=voltage, output_current=current)
    assert read(channels, code=CODE).value == pytest.approx(5.05)


def test_rows_count_by_the_time_they_stand_for():
    # Rows each second for 300 s at 5.0 V, then every fourth second for 300 s at 4.8 V:
    # the mean by time is 4.9 V, the mean by rows would be 4.96 V.
    time = np.concatenate([np.arange(60.0), 60 + np.arange(300.0), 360 + 4 * np.arange(76.0),
                           664 + np.arange(60.0)])
    voltage = np.concatenate([np.full(60, 5.1), np.full(300, 5.0), np.full(76, 4.8),
                              np.full(60, 5.1)])
    current = np.concatenate([np.zeros(60), np.full(376, 2.0), np.full(60, 1.0)])
    channels = log(time, output_voltage=voltage, output_current=current)
    assert read(channels, code=CODE).value == pytest.approx(9.8, abs=0.01)


def test_the_cable_is_put_back_on_all_voltages():
    time, voltage, current = steps([0, 1.0, 2.0], 800)
    cable = Cable(0.0, 1e-6, 0.1)                     # 0.1 Ω of contacts
    stated = Conditions(set_voltage=5.0, cable=cable)
    channels = log(time, output_voltage=voltage - 0.1 * current, output_current=current)
    found = read(channels, stated, CODE)
    assert found.value == pytest.approx(10.0)
    # 30 % of 0.1 Ω: 0.03 Ω · 2 A · 2 A = 0.12 W
    assert dict(found.budget)["resistance of the cable"] == pytest.approx(0.12)


def test_peak_power_is_that_of_ten_seconds():
    time, voltage, current = steps([0, 1.0, 2.0, 3.0], 20)
    found = read(log(time, output_voltage=voltage, output_current=current), code="peak_power")
    assert found.value == pytest.approx(3.0 * 4.95)
    assert found.conditions["duration"] == 10.0


def test_a_span_limits_the_rows():
    time, voltage, current = steps([0, 1.0, 2.0], 800)
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, code=CODE, span=(0.0, 1599.0))
    assert found.value == pytest.approx(5.05) and found.end <= 1599


def test_no_voltage_in_regulation_names_the_floor():
    time, voltage, current = steps([0, 1.0, 2.0], 700, unloaded=4.5)
    channels = log(time, output_voltage=voltage, output_current=current)
    assert "4.750 V" in read(channels, code=CODE).why


def test_noise_is_no_change_of_load():
    time, voltage, current = steps([0, 1.0, 2.0], 800)
    current = current * (1 + 0.006 * np.random.default_rng(3).standard_normal(len(time)))
    found = read(log(time, output_voltage=voltage, output_current=current), STATED, CODE)
    assert isinstance(found, Extracted) and found.value == pytest.approx(10.0, rel=2e-3)


def test_ranges_are_those_of_a_plain_loop():
    rng = np.random.default_rng(5)
    values = rng.standard_normal(200)
    first = rng.integers(0, 150, 60)
    last = first + rng.integers(1, 50, 60)
    low, high = ranges(values, first, last)
    assert list(low) == [values[a:b].min() for a, b in zip(first, last, strict=True)]
    assert list(high) == [values[a:b].max() for a, b in zip(first, last, strict=True)]
