"""Energy of one on-time."""
import numpy as np
import pytest

from teardowns.engine.physics.flyback import boundary_power
from teardowns.logs.waveforms.energy import energy_per_cycle


def test_at_the_boundary_it_is_the_boundary_power():
    # 100 V, duty 0.45, 1 mH, 65 kHz, 0.8 of it reach the output: 12.46 W, by hand.
    power = energy_per_cycle(100.0, 0.45 / 65e3, 1e-3) * 65e3
    assert 0.8 * power == pytest.approx(12.46, abs=0.005)
    assert power == pytest.approx(boundary_power(100.0, 0.45, 1e-3, 65e3))


def test_nothing_flows_without_an_on_time_and_unknown_stays_unknown():
    energy = energy_per_cycle(np.array([100.0, np.nan]), np.array([0.0, 1e-6]), 1e-3)
    assert energy[0] == 0 and np.isnan(energy[1])
