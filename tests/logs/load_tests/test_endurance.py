import numpy as np
import pytest

from teardowns.logs.extracted import Extracted, Unread
from tests.logs.load_tests.made import log, read

HOUR = np.arange(0.0, 3600.0)


def run(voltage=5.0, current=2.0, **more):
    return log(HOUR, output_voltage=voltage, output_current=current, **more)


def lost(*spans, voltage=0.0):
    values = np.full(len(HOUR), 5.0)
    for start, end in spans:
        values[(start <= HOUR) & (end > HOUR)] = voltage
    return values


def test_one_load_for_an_hour_is_held_for_the_hour():
    found = read(run())
    assert found["time_held"].value == pytest.approx(3600)
    assert found["sustained_power"].value == pytest.approx(10.0)
    assert found["sustained_power"].conditions["duration"] == pytest.approx(3600)
    assert found["drop_outs"].value == 0


def test_a_sweep_has_no_time_held():
    half = np.where(HOUR < 1800, 1.0, 2.0)
    assert "time_held" not in read(run(current=half))


def test_a_reset_ends_the_time_held_and_is_counted():
    found = read(run(lost((1000, 1003))))
    assert found["time_held"].value == pytest.approx(3600 - 1003)
    assert found["drop_outs"].value == 1
    assert "1000.0 s" in found["drop_outs"].working[0]


def test_short_sags_within_one_in_a_hundred_do_not_end_it():
    found = read(run(lost((1000, 1010), (2000, 2010), voltage=4.5)))
    assert found["time_held"].value == pytest.approx(3600)       # 20 s of 3600 s
    assert found["drop_outs"].value == 2


def test_more_than_one_in_a_hundred_does():
    # 300 s of sag; before it 1500 s, after it 1800 s. 99 % of a longer part would need the sag to
    # be at most a hundredth of it: 1800 s + 18.2 s.
    found = read(run(lost((1500, 1800), voltage=4.5)))
    assert found["time_held"].value == pytest.approx(1800 / 0.99, abs=1)


def test_a_load_held_for_five_minutes_is_too_short():
    channels = log(HOUR[:300], output_voltage=5.0, output_current=2.0)
    found = read(channels)
    assert isinstance(found["sustained_power"], Unread)
    assert found["time_held"].value == pytest.approx(300)
    assert found["peak_power"].value == pytest.approx(10.0)


def test_the_temperature_drift_is_from_the_first_to_the_last_twentieth():
    found = read(run(temperature=40 + 20 * HOUR / 3600))["temperature_drift"]
    # Means of both ends lie 19/20 of the hour apart: 19 K.
    assert found.value == pytest.approx(19.0, abs=0.01) and found.unit == "K"


def test_a_run_without_temperatures_says_so_when_asked():
    found = read(run(), code="temperature_drift")
    assert isinstance(found, Unread)


def test_shutting_down_under_constant_load_is_not_told_from_unplugging():
    voltage = lost((1500, 3600))
    found = read(run(voltage, np.where(voltage > 0, 2.0, 0.0)))
    assert found["time_held"].value == pytest.approx(1500)
    assert isinstance(found["failed_power"], Unread)


def test_with_the_mains_on_it_is():
    voltage = lost((1500, 3600))
    found = read(run(voltage, np.where(voltage > 0, 2.0, 0.0), input_voltage=230.0))
    assert isinstance(found["failed_power"], Extracted)
    assert found["failed_power"].value == pytest.approx(10.0, abs=0.01)


def test_a_hole_in_the_record_ends_the_time_held():
    kept = (HOUR < 1500) | (HOUR > 1600)
    channels = log(HOUR[kept], output_voltage=5.0, output_current=2.0)
    assert read(channels)["time_held"].value == pytest.approx(1999)
