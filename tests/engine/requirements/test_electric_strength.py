"""Test voltages by the highest of three methods."""
import numpy as np
import pytest

from teardowns.engine.requirements.electric_strength import legacy_strength, required_strength
from teardowns.engine.requirements.mains_voltages import sine_peak


# Test report, 2021: 4000 V d.c. at 240 V, 420 V peak. By hand: 530 V → max(4000, 848, 4000); basic
# max(2500, 1.3 · 420, 2000) = 2500; 120 V max(2500, 336, 4000).
@pytest.mark.parametrize("transient, volts, peak, reinforced, expected", [
    (2500.0, 240.0, 420.0, True, 4000.0), (2500.0, 240.0, 530.0, True, 4000.0),
    (2500.0, 240.0, 420.0, False, 2500.0), (1500.0, 120.0, 210.0, True, 4000.0),
    (2500.0, 277.0, 420.0, True, 5000.0), (4000.0, 240.0, 420.0, True, 6000.0)])
def test_required_voltages(transient, volts, peak, reinforced, expected):
    assert required_strength(transient, volts, peak, reinforced) == expected


def test_beyond_the_tables_nothing_is_known():
    assert np.isnan(required_strength(6000.0, 240.0, 420.0, True))
    assert np.isnan(required_strength(2500.0, 700.0, 420.0, True))
    assert np.isnan(required_strength(2500.0, 240.0, float("nan"), True))


# Test report on a charger: 3000 V rms at 530 V peak. Table 5B from memory: 2000 V to 210 V peak.
@pytest.mark.parametrize("peak, expected", [
    (210.0, 2000.0), (420.0, 3000.0), (530.0, 3000.0), (1410.0, 3000.0)])
def test_the_withdrawn_standard(peak, expected):
    assert legacy_strength(peak) == expected
    assert np.isnan(legacy_strength(1500.0))


# By hand, √2: 3000 V rms are 4242 V d.c. (4242.6), 4000 V d.c. 2828 V rms, 2500 V d.c. 1768 V rms.
@pytest.mark.parametrize("rms, direct", [(3000.0, 4242.6), (2828.4, 4000.0), (1767.8, 2500.0)])
def test_an_rms_voltage_as_direct_voltage(rms, direct):
    assert sine_peak(rms) == pytest.approx(direct, abs=0.1)
