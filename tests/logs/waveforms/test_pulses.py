"""Turn-ons and turn-offs of captures of known truth."""
import numpy as np
import pytest

from teardowns.logs.waveforms.pulses import pulses_of
from teardowns.logs.waveforms.trace import Unreadable, trace_of
from tests.logs.captures import Flyback, Scope, balanced, capture


def pulses(flyback, scope=None):
    return pulses_of(trace_of(capture(flyback, scope)))


def test_each_period_has_one_on_time():
    # 50 000 samples at 50 MS/s are 1 ms: 65 whole periods of 65.3 kHz, one on-time 4.90 µs.
    found = pulses(Flyback())
    assert len(found.on) in (64, 65)
    assert found.periods == pytest.approx(50e6 / 65.3e3, abs=3)
    assert found.on_times == pytest.approx(0.32 * 50e6 / 65.3e3, abs=4)


def test_a_ring_that_touches_the_on_level_is_no_on_time():
    # 120 V of bus and 115 V reflected: the first valley lies near 15 V, under 7 % of 235 V.
    deep = balanced(Flyback(bus=120.0, reflected=115.0, duty=0.25, ring=400e3, decay=30e-6))
    assert pulses(deep).on_times == pytest.approx(0.25 * 50e6 / 65.3e3, abs=6)


def test_levels_are_those_of_the_circuit():
    found = pulses(Flyback(duty=0.41, demagnetisation=None))
    assert found.on_level == pytest.approx(1.0, abs=1.0)          # 0 to 2 V across the switch
    assert found.top == pytest.approx(385.0, abs=2.0)


@pytest.mark.parametrize("level", [0.0, 1.0])
def test_half_a_period_is_not_enough(level):
    scope = Scope(count=500, seed=int(level))
    with pytest.raises(Unreadable, match="span|period"):
        pulses(Flyback(), scope)


def test_the_times_do_not_hang_on_the_scale():
    one, ten = (pulses(Flyback(), Scope(factor=factor)) for factor in (1.0, 10.0))
    assert np.array_equal(one.on, ten.on) and np.array_equal(one.off, ten.off)
