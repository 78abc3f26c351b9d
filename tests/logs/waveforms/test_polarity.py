"""Which way up a winding is."""
import pytest

from teardowns.logs.waveforms.polarity import seen_upright
from teardowns.logs.waveforms.trace import Unreadable, trace_of
from tests.logs.captures import Flyback, Scope, balanced, capture

EMPTY = balanced(Flyback(duty=0.2, reflected=110.0))
FULL = Flyback(duty=0.25, reflected=103.0, demagnetisation=None)


def duty(flyback, invert):
    trace = trace_of(capture(flyback, Scope(noise=0.1), "winding_voltage", invert))
    pulses = seen_upright(trace)[1]
    return float(pulses.on_times.mean() / pulses.periods.mean())


@pytest.mark.parametrize("invert", [False, True])
@pytest.mark.parametrize("flyback", [EMPTY, FULL])
def test_the_on_time_is_found_either_way_up(flyback, invert):
    assert duty(flyback, invert) == pytest.approx(flyback.duty, abs=0.005)


def test_without_a_spike_and_without_a_ring_it_does_not_show():
    bare = Flyback(duty=0.25, reflected=103.0, demagnetisation=None, leakage=0.0)
    with pytest.raises(Unreadable, match="which half of the period"):
        duty(bare, False)
