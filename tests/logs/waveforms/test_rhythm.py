"""Frequency by a straight line, dither, bursts; edges are given, not captured."""
import numpy as np
import pytest

from teardowns.logs.waveforms.pulses import Pulses
from teardowns.logs.waveforms.rhythm import rhythm_of
from teardowns.logs.waveforms.trace import Trace

TRACE = Trace(0.0, 20e-9, np.zeros(2), 1, 0.0, 0.0, 1, False)


def rhythm(places):
    on = np.floor(np.asarray(places, float)) + 0.5
    return rhythm_of(TRACE, Pulses(on, on + 100.0, 0.0, 1.0, 0.0))


def test_a_line_beats_the_step_between_two_samples():
    # 765.7 samples of 20 ns: 65.300 kHz; a single period is known to one sample, 0.13 %.
    found = rhythm(np.arange(60) * 765.7)
    assert found.frequency == pytest.approx(1 / (765.7 * 20e-9), abs=4 * found.fit_u)
    assert found.fit_u < 2.0 and found.swing == 0


def test_of_a_dithered_clock_the_mean_period_counts_and_the_swing_is_told():
    # Periods of 720 to 780 samples, evenly spread: mean 750, deviation 60/√12 = 17.3 (2.3 %).
    periods = np.tile(np.linspace(720, 780, 61), 3)
    found = rhythm(np.append(0.0, np.cumsum(periods)))
    assert found.frequency == pytest.approx(1 / (750 * 20e-9), rel=1e-4)
    assert found.swing == pytest.approx(0.0235 * found.frequency, rel=0.05)


def test_pauses_part_the_pulses_and_leave_the_frequency_alone():
    starts = np.concatenate([3000 * burst + 500.3 * np.arange(4) for burst in range(5)])
    found = rhythm(starts)
    assert found.bursts == ((0, 3), (4, 7), (8, 11), (12, 15), (16, 19)) and found.is_burst
    assert found.frequency == pytest.approx(1 / (500.3 * 20e-9), rel=1e-3)
    assert list(np.flatnonzero(~found.steady(20))) == [3, 7, 11, 15]
