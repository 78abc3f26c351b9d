"""Robust regression against certified data, published fits, another library and a bootstrap."""
import numpy as np
import pytest

from teardowns.engine.physics.robust_fit import (
    _clipped_variance,
    huber_fit,
    leverage,
    prediction_half_width,
)

# NIST/ITL StRD "Norris" (calibration of ozone monitors): x, y.
NORRIS = np.array([
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1),
    (666.3, 668.5), (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3),
    (0.6, 0.1), (775.5, 778.1), (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8),
    (556.0, 557.7), (228.1, 228.3), (995.8, 998.0), (887.6, 888.8), (120.2, 119.6), (0.3, 0.3),
    (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0), (999.0, 998.5), (779.0, 778.9),
    (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2), (0.5, 0.2),
])
# K. A. Brownlee, Statistical Theory and Methodology in Science and Engineering, 2nd ed., 1965,
# p. 454: air flow, water temperature, acid concentration, stack loss.
STACK = np.array([
    (80, 27, 89, 42), (80, 27, 88, 37), (75, 25, 90, 37), (62, 24, 87, 28), (62, 22, 87, 18),
    (62, 23, 87, 18), (62, 24, 93, 19), (62, 24, 93, 20), (58, 23, 87, 15), (58, 18, 80, 14),
    (58, 18, 89, 14), (58, 17, 88, 13), (58, 18, 82, 11), (58, 19, 93, 12), (50, 18, 89, 8),
    (50, 18, 86, 7), (50, 19, 72, 8), (50, 19, 79, 8), (50, 20, 80, 9), (56, 20, 82, 15),
    (70, 20, 91, 15),
], float)


def with_constant(*columns):
    return np.stack([np.ones(len(columns[0])), *columns], 1)


X, Y = with_constant(NORRIS[:, 0]), NORRIS[:, 1]
STACK_X, STACK_Y = with_constant(*STACK[:, :3].T), STACK[:, 3]


def test_10_a_to_c_least_squares_gives_the_certified_values_of_norris():
    found = huber_fit(X, Y, np.inf)
    certified = (-0.262323073774029, 1.00211681802045)          # NIST StRD, Norris, B0 and B1
    assert found.coefficients == pytest.approx(certified, rel=1e-9)
    assert found.residual_sd == pytest.approx(0.884796396144373, rel=1e-9)
    assert found.degrees == 34


def test_10_d_one_more_norris_reading_at_500():
    # Mean of x 419.18; sum of squares (s over the certified sd of B1)² = 4 237 993:
    # 2.0322 · 0.884796 · √(1 + 1/36 + 80.82²/4 237 993) = 1.7981 · 1.01455 = 1.8243
    found = huber_fit(X, Y, np.inf)
    h = leverage(X, np.array([[1.0, 500.0]]))
    half = prediction_half_width(found.residual_sd, h, found.degrees)
    assert half == pytest.approx([1.8243], abs=5e-4)


def test_10_e_the_stack_loss_as_in_the_examples_of_two_statistics_packages():
    # Huber's T, c = 1.345, scale by MAD: documentation of statsmodels, RLM; rlm() of MASS.
    found = huber_fit(STACK_X, STACK_Y)
    assert found.coefficients == pytest.approx([-41.0265, 0.8294, 0.9261, -0.1278], abs=6e-5)


@pytest.mark.parametrize("seed", range(5))
def test_statsmodels_finds_the_same(seed):
    api = pytest.importorskip("statsmodels.api")
    rng = np.random.default_rng(seed)
    design = with_constant(rng.uniform(2, 6, 30), rng.normal(size=30))
    response = design @ (1.0, 1.5, -0.3) + 0.3 * rng.standard_t(2, 30)
    theirs = api.RLM(response, design, M=api.robust.norms.HuberT()).fit(tol=1e-12, maxiter=500)
    ours = huber_fit(design, response)
    assert ours.coefficients == pytest.approx(theirs.params, rel=1e-7)
    assert ours.scale == pytest.approx(theirs.scale, rel=1e-7)


def test_statsmodels_finds_the_same_prediction_interval():
    api = pytest.importorskip("statsmodels.api")
    new = np.array([[1.0, -200.0], [1.0, 500.0], [1.0, 2000.0]])
    theirs = api.OLS(Y, X).fit().get_prediction(new).conf_int(obs=True, alpha=0.1)
    fit = huber_fit(X, Y, np.inf)
    ours = prediction_half_width(fit.residual_sd, leverage(X, new), fit.degrees, 0.9)
    assert ours == pytest.approx((theirs[:, 1] - theirs[:, 0]) / 2, rel=1e-9)


@pytest.mark.parametrize("place", [3.0, 9.0], ids=["within", "far beyond"])
def test_a_residual_bootstrap_finds_the_same_interval(place):
    rng = np.random.default_rng(10)
    design = with_constant(rng.uniform(1, 5, 60))
    response = design @ (1.0, 1.5) + rng.normal(0, 0.4, 60)
    fit = huber_fit(design, response)
    row = np.array([[1.0, place]])
    half = prediction_half_width(fit.residual_sd, leverage(design, row), fit.degrees)
    assert half == pytest.approx([_bootstrap(design, response, fit, row[0], rng)], rel=0.1)


def _bootstrap(design, response, fit, row, rng, draws=1500):
    """Half of the central 95 % of (refitted prediction − new observation)."""
    line = design @ fit.coefficients
    pool = response - line
    pool = (pool - pool.mean()) * np.sqrt(len(pool) / fit.degrees)
    missed = []
    for _ in range(draws):
        again = huber_fit(design, line + rng.choice(pool, len(pool)))
        new = row @ fit.coefficients + rng.choice(pool, 20)
        missed.append(row @ again.coefficients - new)
    low, high = np.quantile(np.concatenate(missed), [0.025, 0.975])
    return (high - low) / 2


def test_three_wild_units_of_thirty_do_not_bend_the_line():
    rng = np.random.default_rng(4)
    x = rng.uniform(3, 6, 30)
    y = 1 + 1.5 * x + rng.normal(0, 0.2, 30)
    wild = y.copy()
    wild[:3] += 5.0
    clean, bent = huber_fit(with_constant(x), y), huber_fit(with_constant(x), wild)
    assert bent.coefficients[1] == pytest.approx(clean.coefficients[1], abs=0.1)
    # Clipped, three of thirty add at most 0.1 · 1.345²/0.71 = 0.25 to the variance; the median of
    # the residuals moves up to where 56 % of the clean ones lie, 0.77 for 0.6745 sd.
    assert bent.residual_sd < 1.25**0.5 * 0.77 / 0.6745 * clean.residual_sd
    # Not clipped: 5 · √(0.1 · 0.9) = 1.5 of sd, less what the line bends.
    assert huber_fit(with_constant(x), wild, np.inf).residual_sd > 5 * clean.residual_sd


def test_the_spread_of_normal_residuals_is_their_standard_deviation():
    rng = np.random.default_rng(6)
    x = rng.uniform(0, 1, 20_000)
    found = huber_fit(with_constant(x), x + rng.normal(0, 0.5, 20_000))
    assert found.residual_sd == pytest.approx(0.5, rel=0.015)
    assert found.scale == pytest.approx(0.5, rel=0.03)


def test_what_clipping_takes_off_a_normal():
    # Numerically: mean of min(|z|, 1.345)² over a fine grid of z.
    z, step = np.linspace(-9, 9, 180_001, retstep=True)
    density = np.exp(-z * z / 2) / np.sqrt(2 * np.pi)
    expected = (np.minimum(np.abs(z), 1.345) ** 2 * density).sum() * step
    assert _clipped_variance(1.345) == pytest.approx(expected, rel=1e-7)


def test_points_on_a_line_leave_no_spread():
    x = np.arange(12.0)
    found = huber_fit(with_constant(x), 3 + 2 * x)
    assert found.coefficients == pytest.approx([3, 2])
    assert found.residual_sd == pytest.approx(0, abs=1e-12)


def test_where_all_but_one_point_lie_on_a_line_that_line_is_found():
    x = np.arange(12.0)
    found = huber_fit(with_constant(x), np.where(x == 11, 30.0, 1.0 + x))
    assert found.coefficients == pytest.approx([1, 1])
    assert found.residual_sd == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("spoilt", ["design", "response"])
def test_unknown_in_unknown_out(spoilt):
    design, response = X.copy(), Y.copy()
    (design if spoilt == "design" else response)[3] = np.nan
    found = huber_fit(design, response)
    assert np.isnan([*found.coefficients, found.scale, found.residual_sd]).all()


def test_leverages_of_the_fitted_rows_add_up_to_the_coefficients():
    # trace of the hat matrix: p
    assert leverage(STACK_X, STACK_X).sum() == pytest.approx(4.0)
    assert np.isnan(leverage(X, np.array([[1.0, np.nan]]))).all()


@pytest.mark.parametrize("degrees, t", [(1, 12.706), (10, 2.228), (30, 2.042), (1e9, 1.960)])
def test_without_doubt_about_the_line_the_table_of_t_remains(degrees, t):
    # Student's t, two-sided 95 %: any table, e.g. NIST/SEMATECH e-Handbook, 1.3.6.7.2
    assert prediction_half_width(1.0, 0.0, degrees) == pytest.approx(t, abs=5.1e-4)


def test_one_row_gives_the_bits_of_many():
    rows = with_constant(np.linspace(0, 1000, 501))
    many = leverage(X, rows)
    for i in (0, 250, 500):
        assert leverage(X, rows[[i]]).tobytes() == many[[i]].tobytes()
