"""The ten-kelvin rule and Rubycon's form with ripple; worked by hand."""
import numpy as np
import pytest

from teardowns.engine.physics.capacitor_life import (
    can_temperature_rise,
    capacitor_life,
    capacitor_life_with_ripple,
)


def test_twenty_kelvin_cooler_lasts_four_times_as_long():
    assert capacitor_life(2000.0, 105.0, 85.0) == 8000.0            # 2000 · 2²


def test_at_its_rated_temperature_it_lasts_as_rated():
    assert capacitor_life(2000.0, 105.0, 105.0) == 2000.0


def test_rated_ripple_changes_nothing():
    assert float(capacitor_life_with_ripple(2000.0, 105.0, 85.0, 1.2, 1.2, 1.0)) == 8000.0


def test_half_the_ripple_lasts_a_third_longer():
    # ΔT 5 and 1.25 K; g 5/8.75 = 0.5714 and 1.25/9.6875 = 0.1290; 2^0.4424 = 1.3589: 10 871 h.
    assert float(capacitor_life_with_ripple(2000.0, 105.0, 85.0, 0.6, 1.2, 1.0)) == pytest.approx(
        10_871, abs=1)


def test_at_a_higher_frequency_more_ripple_does_the_same():
    assert float(capacitor_life_with_ripple(2000.0, 105.0, 85.0, 1.2, 1.0, 1.2)) == pytest.approx(
        8000.0)


def test_a_core_that_would_boil_has_no_life():
    # Three times the ripple is nine times the rise, 45 K; the form ends at 40 K.
    with np.errstate(invalid="ignore", divide="ignore"):
        assert np.isnan(capacitor_life_with_ripple(2000.0, 105.0, 85.0, 3.0, 1.0, 1.0))


def test_the_rise_of_a_can():
    # 10 × 20 mm: S = π·1·2 + π/4 = 7.069 cm²; S^0.8 = e^(0.8·1.9557) = 4.781;
    # 1² · 0.05 Ω / (2.3e-3 · 4.781) = 4.547 K.
    assert float(can_temperature_rise(1.0, 0.05, 0.010, 0.020)) == pytest.approx(4.547, abs=0.002)


def test_the_rise_grows_with_the_square_of_the_current():
    one, two = (float(can_temperature_rise(amperes, 0.05, 0.01, 0.02)) for amperes in (1.0, 2.0))
    assert two == pytest.approx(4 * one)


@pytest.mark.parametrize("formula, inputs", [
    (capacitor_life, (2000.0, 105.0, 85.0)),
    (capacitor_life_with_ripple, (2000.0, 105.0, 85.0, 0.6, 1.2, 1.0)),
    (can_temperature_rise, (1.0, 0.05, 0.01, 0.02)),
])
def test_unknown_in_unknown_out(formula, inputs):
    for missing in range(len(inputs)):
        gap = [*inputs]
        gap[missing] = float("nan")
        assert np.isnan(formula(*gap))


def test_one_gives_the_bits_of_many():
    warm = np.linspace(40.0, 110.0, 101)
    many = capacitor_life_with_ripple(2000.0, 105.0, warm, 0.6, 1.2, 1.0)
    one = capacitor_life_with_ripple(2000.0, 105.0, warm[[9]], 0.6, 1.2, 1.0)
    assert one.tobytes() == many[[9]].tobytes()
