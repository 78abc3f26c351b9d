"""The ring: textbook relations and a curve of known truth."""
import numpy as np
import pytest

from teardowns.logs.waveforms.ring import (
    capacitance_by_addition,
    fit_ring,
    inductance_capacitance,
)


def test_one_and_a_half_millihenry_and_73_picofarad_ring_at_481_kilohertz():
    # 1/(2π·√(1.5 mH · 73 pF)) = 480.96 kHz
    assert inductance_capacitance(480.96e3) == pytest.approx(1.5e-3 * 73e-12, rel=1e-4)


def test_an_added_capacitor_tells_the_one_that_was_there():
    # 73 pF and 173 pF with 1.5 mH: 480.96 kHz and 312.43 kHz.
    assert capacitance_by_addition(480.96e3, 312.43e3, 100e-12) == pytest.approx(73e-12, rel=1e-3)


def test_three_times_the_capacitance_halve_the_frequency():
    assert capacitance_by_addition(2.0, 1.0, 3e-12) == pytest.approx(1e-12)


def test_vectors_are_scalars():
    both = inductance_capacitance(np.array([1e5, 2e5]))
    assert list(both) == [inductance_capacitance(1e5), inductance_capacitance(2e5)]


@pytest.mark.parametrize("guess", [0.75, 1.0, 1.4])
def test_a_ring_is_found_from_a_poor_guess(guess):
    time = np.arange(400) * 20e-9
    noise = np.random.default_rng(2).normal(0, 1.0, 400)
    seen = 310 + 75 * np.exp(-time / 3e-6) * np.cos(2 * np.pi * 500e3 * time + 0.3) + noise
    ring = fit_ring(seen, 20e-9, guess * 500e3)
    assert ring.frequency == pytest.approx(500e3, abs=4 * ring.frequency_u)
    assert ring.centre == pytest.approx(310, abs=4 * ring.centre_u)
    assert ring.residual == pytest.approx(1.0, rel=0.15) and 0 < ring.frequency_u < 2e3
