"""The off-time by itself: drawn, not captured."""
import numpy as np
import pytest

from teardowns.logs.waveforms.conduction import conduction_of
from teardowns.logs.waveforms.profile import Profile

STEP = 20e-9


def seen(values):
    return conduction_of(Profile(np.asarray(values, float), STEP, len(values) * STEP, 30, 0.5, 0),
                         0.0)


def off_time(ends, length, ring=500e3, decay=6e-6, reflected=80.0, sag=0.0):
    time = np.arange(int(length / STEP)) * STEP
    held = 300 + reflected * (1 + sag * (1 - time / ends))
    free = np.maximum(time - ends, 0)
    omega = 2 * np.pi * ring
    rings = np.exp(-free / decay) * (np.cos(omega * free) + np.sin(omega * free) / omega / decay)
    return np.where(time < ends, held, 300 + reflected * rings)


@pytest.mark.parametrize(("rest", "mode", "valley"), [
    (0.4, "boundary", 0), (0.5, "boundary", 0), (0.62, "boundary", 1), (0.8, "discontinuous", 0),
    (1.5, "discontinuous", 2), (2.0, "discontinuous", 0), (6.3, "discontinuous", 0),
])
def test_the_mode_follows_from_the_ring_since_it_was_empty(rest, mode, valley):
    found = seen(off_time(5e-6, 5e-6 + rest / 500e3))
    assert found.mode == mode
    assert found.valley == valley or rest < 0.65


@pytest.mark.parametrize("sag", [0.0, 0.05])
def test_the_end_of_demagnetisation_is_where_the_ring_begins(sag):
    found = seen(off_time(5.1e-6, 14e-6, sag=sag))
    assert found.demagnetised == pytest.approx(5.1e-6, abs=0.06e-6)
    assert found.ring.centre == pytest.approx(300.0, abs=0.5)
    assert found.ring.frequency == pytest.approx(500e3, rel=0.002)


def test_a_plateau_that_sags_to_the_end_is_no_ring():
    assert seen(np.linspace(400, 375, 500)).mode == "continuous"


def test_a_ring_that_is_damped_away_leaves_the_mode_and_no_frequency():
    time = np.maximum(np.arange(800) * STEP - 5e-6, 0)
    found = seen(300 + 80 * np.exp(-time / 0.4e-6))
    assert found.mode == "discontinuous" and found.ring is None
    assert "damped" in found.why_no_ring


def test_a_plateau_shorter_than_the_first_ringing_is_not_read():
    found = seen(off_time(0.5e-6, 10e-6))
    assert found.mode == "discontinuous"
    assert found.plateau is None and found.demagnetised is None
