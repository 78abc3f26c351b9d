import numpy as np
import pytest

from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Unread
from teardowns.logs.load_tests.ripple import sine_swing
from tests.logs.load_tests.made import log, read

TIME = np.arange(0, 0.2, 10e-6)
MAINS = Conditions(set_voltage=5.0, mains_frequency=50.0)


def fine(switching=0.03, line=0.05, noise=0.0):
    """30 mV and 50 mV from peak to mean: 2·(30 + 50) = 160 mV peak to peak."""
    rng = np.random.default_rng(7)
    values = (switching * np.sin(2 * np.pi * 1730 * TIME) + line * np.sin(2 * np.pi * 100 * TIME)
              + noise * rng.standard_normal(len(TIME)))
    return log(TIME, 1e-3, ripple_voltage=values)


def test_ripple_is_peak_to_peak():
    assert read(fine(), MAINS, "ripple_voltage").value == pytest.approx(0.16, rel=0.02)


def test_one_spike_is_no_ripple():
    channels = fine()
    channels.channels[0].values[777] = 2.0
    assert read(channels, MAINS, "ripple_voltage").value == pytest.approx(0.16, rel=0.02)


def test_the_part_at_twice_the_mains_frequency_is_told_by_itself():
    found = read(fine(noise=0.005), MAINS, "line_ripple")
    assert found.value == pytest.approx(0.10, rel=0.01)


def test_the_frequency_is_looked_for_where_it_is_not_stated():
    time = np.arange(0, 0.5, 1e-4)
    values = 0.04 * np.sin(2 * np.pi * 120 * time)
    found = read(log(time, ripple_voltage=values), code="line_ripple")
    assert found.value == pytest.approx(0.08, rel=1e-3) and "60 Hz" in found.working[0]


def test_a_slow_logger_shows_no_ripple():
    found = read(log(np.arange(600.0), ripple_voltage=5.0), code="ripple_voltage")
    assert isinstance(found, Unread) and "oscilloscope" in found.why


def test_a_short_record_has_no_part_of_the_mains():
    channels = log(np.arange(0, 5e-3, 1e-6), ripple_voltage=0.1)
    assert isinstance(read(channels, MAINS, "line_ripple"), Unread)


def test_a_drift_is_no_sine():
    assert sine_swing(TIME, 0.5 * TIME, 100.0)[0] == pytest.approx(0.0, abs=1e-9)
