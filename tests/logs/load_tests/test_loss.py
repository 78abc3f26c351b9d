"""What looks like a lost load and may be none: it is said, never held against the unit."""
import numpy as np
import pytest

from teardowns.logs.conditions import Cable, Conditions
from teardowns.logs.extracted import Extracted, Unread
from tests.logs.load_tests.made import STATED, log, read, steps

CODE = "failed_power"


def sweep(loads, dwell=20, **more):
    time, voltage, current = steps(loads, dwell, **more)
    return time, voltage, current


def cut_off(after, tail, **roles):
    """A sweep to 2 A that is cut off `after` seconds into its last step, for `tail` seconds."""
    time, voltage, current = sweep(np.arange(0, 2.01, 0.2))
    kept = time < time[-1] - 20 + after
    time = np.arange(np.count_nonzero(kept) + tail) * 1.0
    voltage = np.concatenate([voltage[kept], np.zeros(tail)])
    current = np.concatenate([current[kept], np.zeros(tail)])
    return log(time, output_voltage=voltage, output_current=current, **{
        role: make(len(time), np.count_nonzero(kept)) for role, make in roles.items()})


def test_a_plug_pulled_within_a_step_is_no_lost_load():
    found = read(cut_off(after=10, tail=100), code=CODE)
    assert isinstance(found, Unread) and "plugged in" in found.why


def test_a_plug_pulled_at_the_end_is_no_lost_load():
    assert isinstance(read(cut_off(after=20, tail=10), code=CODE), Unread)


def test_with_the_mains_logged_and_on_it_is_the_unit_that_gave_up():
    on = cut_off(10, 100, input_voltage=lambda n, up: np.full(n, 230.0))
    found = read(on, code=CODE)
    assert isinstance(found, Extracted) and found.value == pytest.approx(10.0, abs=0.01)
    assert found.conditions["mains_voltage"] == pytest.approx(230.0)


def test_with_the_mains_logged_and_gone_it_is_not():
    gone = cut_off(20, 100, input_voltage=lambda n, up: np.where(np.arange(n) < up, 230.0, 0.0))
    found = read(gone, code=CODE)
    assert isinstance(found, Unread) and "mains" in found.why


def test_a_lead_pulled_off_at_the_end_is_no_lost_load_though_the_mains_stays():
    on = cut_off(10, 10, input_voltage=lambda n, up: np.full(n, 230.0))
    assert isinstance(read(on, code=CODE), Unread)


def test_a_load_taken_off_is_no_lost_load():
    time, voltage, current = sweep([0, 1, 2, 0])
    channels = log(time, output_voltage=voltage, output_current=current)
    assert isinstance(read(channels, code=CODE), Unread)


def test_a_fall_in_proportion_to_the_current_may_be_a_cable():
    time, voltage, current = sweep(np.arange(0, 2.41, 0.2), resistance=0.25)     # 4.5 V at 2.4 A
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, code=CODE)
    assert isinstance(found, Unread) and "state the cable" in found.why


def test_the_same_fall_at_the_port_itself_is_a_loss():
    time, voltage, current = sweep(np.arange(0, 2.41, 0.2), resistance=0.25)
    channels = log(time, output_voltage=voltage, output_current=current)
    at_port = Conditions(set_voltage=5.0, cable=Cable(0.0, 1e-6))
    # 5.1 V − 0.25 Ω·I is below 4.75 V − 26 mV of meter from 1.5 A on: 1.6 A · 5 V.
    assert read(channels, at_port, CODE).value == pytest.approx(8.0, abs=0.01)


def test_a_short_sag_when_the_load_steps_up_is_no_lost_load():
    time, voltage, current = sweep(np.arange(0, 2.41, 0.2), dwell=40)
    rows = np.flatnonzero(np.diff(current) > 0)[:, None] + 1 + np.arange(1)
    voltage[rows] = 4.4
    channels = log(time, output_voltage=voltage, output_current=current)
    assert isinstance(read(channels, code=CODE), Unread)


def test_wrong_readings_here_and_there_are_no_lost_load():
    time, voltage, current = sweep(np.arange(0, 2.41, 0.2), dwell=60)
    voltage[37::50] = 0.0
    channels = log(time, output_voltage=voltage, output_current=current)
    assert isinstance(read(channels, code=CODE), Unread)


def test_a_voltage_below_the_floor_within_the_meters_error_is_not_held_against_it():
    time, voltage, current = sweep([0, 1, 2])
    voltage[current > 1.5] = 4.74                     # the meter may be off by 25.7 mV
    channels = log(time, output_voltage=voltage, output_current=current)
    assert isinstance(read(channels, code=CODE), Unread)


def test_a_new_setting_of_the_port_is_no_lost_load():
    time, voltage, current = sweep([0, 1, 1, 1], unloaded=9.1)
    voltage[time >= 60] = 5.02                        # asked for 5 V under the same load
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, Conditions(set_voltage=9.0), CODE)
    assert isinstance(found, Unread) and "5.02 V" in found.why


def test_uneven_steps_without_a_set_current_do_not_show_what_was_asked_for():
    time, voltage, current = sweep([0, 0.3, 1.0, 1.2, 2.0, 2.0])
    gone = time >= 104
    time = np.arange(len(time)) * 1.0
    voltage[gone], current[gone] = np.where(time[gone] % 4 < 2, 0.0, 4.0), 0.0
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, STATED, CODE)
    assert isinstance(found, Unread) and "at which load" in found.why
