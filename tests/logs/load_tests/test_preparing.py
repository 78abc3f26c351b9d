import numpy as np
import pytest

from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests import read_load_test
from teardowns.logs.load_tests.preparing import load_tests
from tests.logs.load_tests.made import STATED, log, read, steps, test_of
from tests.logs.staircases import KINDS, Bench, Port, at_several_voltages


def staircase(unloaded=5.1):
    time, voltage, current = steps([0, 1, 2], 20, unloaded=unloaded)
    return log(time, output_voltage=voltage, output_current=current)


def test_without_a_current_every_result_says_what_is_missing():
    found = read(log(np.arange(60.0), output_voltage=5.0))
    assert all("current" in found[code].why for code in ("sustained_power", "failed_power"))
    assert found["offered_voltage"].value == pytest.approx(5.0)


def test_without_a_voltage_nothing_is_read():
    found = read(log(np.arange(60.0), output_current=1.0))
    assert all(isinstance(one, Unread) and "voltage" in one.why for one in found.values())


def test_current_is_power_over_voltage_where_only_power_was_logged():
    time, voltage, current = steps([0, 1, 2], 20)
    test = test_of(log(time, output_voltage=voltage, output_power=voltage * current))
    assert test.current == pytest.approx(current)


def test_the_nominal_voltage_is_taken_from_the_no_load_steps_and_said():
    test = test_of(staircase(), Conditions())
    assert test.nominal == 5.0 and "5.10 V" in test.nominal_told


def test_a_voltage_near_no_customary_one_must_be_stated():
    assert "state the output voltage" in load_tests(staircase(6.6), Conditions())


def test_a_log_without_light_load_needs_the_voltage_stated():
    loaded = log(np.arange(900.0), output_voltage=5.0, output_current=2.0)
    assert "state the output voltage" in load_tests(loaded, Conditions())
    assert test_of(loaded, STATED).nominal == 5.0


def test_each_voltage_of_a_port_is_read_by_itself():
    parts = [steps([0, 1, 2, 0], 700, unloaded=v) for v in (5.1, 9.1)]
    voltage, current = (np.concatenate([part[at] for part in parts]) for at in (1, 2))
    channels = log(np.arange(len(voltage)), output_voltage=voltage, output_current=current)
    held = list(read_load_test(channels, Conditions(), {"sustained_power"}))
    assert [one.conditions["output_voltage"] for one in held] == [5.0, 9.0]
    assert [one.value for one in held] == pytest.approx([10.0, 18.0])
    assert not [one for one in read_load_test(channels, Conditions(), {"failed_power"})
                if isinstance(one, Extracted)]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("is_set_logged", (True, False))
def test_each_voltage_of_a_swept_port_has_its_own_limit(kind, is_set_logged):
    ports = [Port(5.0, 2.55, kind), Port(9.0, 2.05, kind), Port(12.0, 1.55, kind)]
    bench = Bench(noise=5e-4, is_set_logged=is_set_logged)
    channels = at_several_voltages(np.random.default_rng(4), ports, bench)
    found = read_load_test(channels, Conditions(), {"overcurrent_point"})
    assert [one.conditions["output_voltage"] for one in found] == [5.0, 9.0, 12.0]
    assert [one.value for one in found] == pytest.approx([2.5, 2.0, 1.5], rel=0.02)


def test_a_stated_voltage_picks_its_part_of_the_log():
    parts = [steps([0, 1, 2, 0], 700, unloaded=v) for v in (5.1, 9.1)]
    voltage, current = (np.concatenate([part[at] for part in parts]) for at in (1, 2))
    channels = log(np.arange(len(voltage)), output_voltage=voltage, output_current=current)
    assert read(channels, Conditions(set_voltage=9.0), "sustained_power").value == (
        pytest.approx(18.0))


def test_a_stated_voltage_that_the_port_never_had_is_said():
    assert "nowhere" in load_tests(staircase(), Conditions(set_voltage=20.0))


def test_rows_in_which_either_is_blank_are_left_out():
    channels = staircase()
    channels.channels[0].values[5], channels.channels[1].values[9] = np.nan, np.nan
    assert len(test_of(channels).time) == len(channels.time) - 2


def test_a_span_of_loaded_rows_still_knows_what_the_port_was_set_to():
    time, voltage, current = steps([0, 1, 2], 700)
    channels = log(time, output_voltage=voltage, output_current=current)
    found = read(channels, Conditions(), "sustained_power", span=(1400.0, 2099.0))
    assert found.value == pytest.approx(10.0) and found.start >= 1400


def test_a_span_without_rows_says_so():
    assert "span" in load_tests(staircase(), STATED, (500.0, 600.0))


def test_a_current_of_the_wrong_sign_is_named():
    time, voltage, current = steps([0, 1, 2], 20)
    assert "negative" in load_tests(log(time, output_voltage=voltage, output_current=-current),
                                    STATED)
