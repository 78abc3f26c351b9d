"""A capture as a trace: its steps, its noise, what it is refused for."""
import numpy as np
import pytest

from teardowns.logs.channels import Channels
from teardowns.logs.waveforms.trace import Unreadable, trace_of
from tests.logs.captures import Flyback, Scope, capture


def test_the_noise_is_that_of_the_oscilloscope():
    assert trace_of(capture(Flyback(), Scope(noise=3.0))).noise == pytest.approx(3.0, rel=0.25)


def test_only_a_noisy_trace_is_smoothed():
    # 2 % of some 475 V, spikes and all, are 9.5 V: 2 V stay as they are, 24 V need 2.5² samples.
    assert trace_of(capture(Flyback(), Scope(noise=2.0))).width == 1
    assert trace_of(capture(Flyback(), Scope(noise=24.0))).width >= 5


def test_a_capture_of_uneven_steps_is_refused():
    channels = capture(Flyback())
    time = channels.time.copy()
    time[30_000:] += 1e-4
    with pytest.raises(Unreadable, match="equal steps of time"):
        trace_of(Channels(time, channels.channels))


def test_upside_down_twice_is_upright():
    trace = trace_of(capture(Flyback()))
    assert np.array_equal(trace.upside_down().upside_down().values, trace.values)
