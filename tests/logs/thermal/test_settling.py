import numpy as np
import pytest

from teardowns.logs.thermal.settling import drift, settle

RNG = np.random.default_rng(11)


def approach(minutes, final, start, constant, noise=0.0, every=10.0, rng=RNG):
    time = np.arange(0.0, minutes * 60, every)
    return time, (final + (start - final) * np.exp(-time / constant)
                  + rng.normal(0, noise, len(time)))


def test_the_end_of_a_clean_approach_is_found():
    # By hand: 85 − 60·exp(−t/900), 40 min; what is left to rise then is 60·e^(−2.67) = 4.2 K.
    found = settle(*approach(40, 85.0, 25.0, 900.0))
    assert found.final == pytest.approx(85.0, abs=0.3)
    assert found.time_constant == pytest.approx(900.0, rel=0.05)
    assert found.last == pytest.approx(85 - 60 * np.exp(-2390 / 900), abs=0.3)


def test_cooling_is_an_approach_as_well():
    assert settle(*approach(60, 25.0, 85.0, 900.0)).final == pytest.approx(25.0, abs=0.3)


def test_a_straight_line_has_no_end():
    time = np.arange(0.0, 1200.0, 10.0)
    assert settle(time, 25 + 0.01 * time) is None


def test_too_few_readings_have_no_end():
    assert settle(*approach(1, 85.0, 25.0, 30.0)) is None


def test_blanks_are_left_out():
    time, temperature = approach(60, 85.0, 25.0, 900.0)
    temperature[::3] = np.nan
    assert settle(time, temperature).final == pytest.approx(85.0, abs=0.3)


def test_the_stated_uncertainty_covers_the_truth():
    rng, inside = np.random.default_rng(5), []
    for _ in range(80):
        final, constant = rng.uniform(50, 110), rng.uniform(500, 1500)
        found = settle(*approach(3 * constant / 60, final, 25.0, constant, 0.3, rng=rng))
        inside.append(abs(found.final - final) <= 2 * found.uncertainty)
    assert np.mean(inside) >= 0.9       # 95 % of a normal error lies within 2 u


def test_two_bodies_widen_the_uncertainty():
    time = np.arange(0.0, 3000.0, 10.0)
    one = 85 - 60 * np.exp(-time / 900)
    two = 85 - 30 * np.exp(-time / 120) - 30 * np.exp(-time / 1500)
    assert settle(time, two).form > 5 * settle(time, one).form


def test_a_slope_and_its_uncertainty():
    time = np.arange(0.0, 600.0, 1.0)
    slope, u = drift(time, 80 + 0.001 * time + RNG.normal(0, 0.1, 600))
    assert slope == pytest.approx(0.001, abs=3 * u)
    # Of a straight line through n readings: σ·√(12/n³) per step (any text on regression).
    assert u == pytest.approx(0.1 * np.sqrt(12 / 600 ** 3), rel=0.5)
