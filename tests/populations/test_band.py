"""The prediction band: a certified data set, another library, its coverage, and its silences."""
import numpy as np
import pytest

from teardowns.populations.band import (
    COVERAGE,
    TOO_ALIKE,
    TOO_FEW,
    UNRELATED,
    Band,
    prediction_band,
)


def drawn(n, seed, sd=0.3):
    """Masses over two decades and powers ∝ mass^1.5 with normal scatter in ln."""
    rng = np.random.default_rng(seed)
    mass = np.exp(rng.uniform(np.log(5), np.log(500), n))
    return mass, 0.05 * mass**1.5 * np.exp(rng.normal(0, sd, n))


def test_one_more_norris_reading_at_500():
    # NIST StRD "Norris": n 36, s 0.884796, mean of x 419.18, sum of squares 4 237 993.
    # t(34), two-sided 90 %: 1.691 (NIST/SEMATECH e-Handbook, 1.3.6.7.2, between 30 and 40 d.f.)
    # 1.691 · 0.884796 · √(1 + 1/36 + 80.82²/4 237 993) = 1.4962 · 1.01455 = 1.5180
    norris = Band(36, 0.0, 1.00212, 419.18, 4_237_993.0, 0.884796, 1.0, np.inf)
    assert np.log(norris.factor(np.exp([500.0]))) == pytest.approx([1.5180], abs=5e-4)


def test_on_normal_residuals_statsmodels_finds_the_same_band_within_what_robustness_costs():
    api = pytest.importorskip("statsmodels.api")
    x, y = drawn(400, 1)
    new = np.array([6.0, 50.0, 450.0])
    theirs = api.OLS(np.log(y), api.add_constant(np.log(x))).fit().get_prediction(
        api.add_constant(np.log(new))).conf_int(obs=True, alpha=1 - COVERAGE)
    band = prediction_band(x, y)
    assert np.log(band.line(new)) == pytest.approx(theirs.mean(axis=1), abs=0.02)
    assert np.log(band.factor(new)) == pytest.approx((theirs[:, 1] - theirs[:, 0]) / 2, rel=0.05)


def test_nine_of_ten_further_units_lie_inside():
    inside = []
    for seed in range(60):
        x, y = drawn(220, seed)
        band = prediction_band(x[:20], y[:20])
        off = np.abs(np.log(y[20:] / band.line(x[20:]))) / np.log(band.factor(x[20:]))
        inside.append(np.mean(off[np.isfinite(off)] <= 1))
    # Binomial error of 60 · 200 is 0.3 %; that of the bands themselves some 1 %.
    assert np.mean(inside) == pytest.approx(0.9, abs=0.03)


def test_a_power_law_is_found_exactly():
    x = np.geomspace(10, 100, 12)
    band = prediction_band(x, 2 * x**1.5)
    assert band.line(np.array([25.0])) == pytest.approx([250.0])      # 2 · 5³
    assert band.factor(np.array([25.0])) == pytest.approx([1.0])


def test_nothing_is_said_beyond_the_units_of_the_fit():
    x, y = drawn(40, 2)
    band = prediction_band(x, y)
    beyond = np.array([x.min() * 0.999, x.max() * 1.001])
    assert np.isnan(band.line(beyond)).all() and np.isnan(band.factor(beyond)).all()
    assert np.isfinite(band.line(np.array([x.min(), x.max()]))).all()


def test_too_few_units_have_no_band():
    x, y = drawn(12, 3)
    x[:2] = 5.0, 500.0
    assert isinstance(prediction_band(x, y), Band)
    y[4] = np.nan
    assert prediction_band(x, y) == TOO_FEW


def test_units_of_nearly_one_mass_have_no_band():
    x, y = np.linspace(50, 249, 30), np.linspace(10, 50, 30)
    assert prediction_band(x, y) == TOO_ALIKE


def test_where_more_mass_brings_no_more_power_there_is_no_band():
    x = np.geomspace(10, 100, 20)
    assert prediction_band(x, 100 / x) == UNRELATED


def test_three_odd_units_do_not_widen_the_band_much():
    x, y = drawn(40, 4)
    odd = y.copy()
    odd[:3] *= 30
    middle = np.array([50.0])
    # Of 40 residuals 3 are clipped at 1.345 robust sd: see tests of the fit; far below ln 30 = 3.4.
    assert np.log(prediction_band(x, odd).factor(middle)) < 1.5 * np.log(
        prediction_band(x, y).factor(middle))


def test_the_order_of_units_changes_no_bit():
    x, y = drawn(50, 5)
    assert prediction_band(x, y) == prediction_band(x[::-1], y[::-1])


def test_unknown_sizes_give_unknown_places():
    band = prediction_band(*drawn(30, 6))
    assert np.isnan(band.line(np.array([np.nan]))).all()
