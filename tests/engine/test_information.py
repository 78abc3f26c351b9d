"""What an observation is expected to say, against closed forms and published values."""
from math import erf, log, pi, prod, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from teardowns.engine.information import (
    NODES,
    OUTCOMES,
    bits,
    entropy,
    equal_nodes,
    held_chances,
    input_chances,
    line_chances,
    number_chances,
    outcomes,
    power_nodes,
    skew_normal,
    voltage_nodes,
)
from teardowns.engine.likelihoods import HABIT_TRUST
from teardowns.engine.voltages import EDGES

# Four independent lognormal bounds, median and coefficient of variation; claim 12 W. Survival
# functions 0.9019, 0.2054, 0.7042, 0.9591, p = 0.1251, and the share of the outcome's variance
# that a perfect measurement of each would resolve: worked from VoI = q²·S·(1 − S)/(p·(1 − p)),
# q = p/S, and by Monte Carlo (the project's basis on power, 13.4, rows 13-j and 13-o).
BOUNDS = ((15.5, 0.20), (9.8, 0.25), (13.0, 0.15), (20.0, 0.30))
SURVIVAL = (0.9019, 0.2054, 0.7042, 0.9591)
RESOLVED = (0.0156, 0.5532, 0.0601, 0.0061)


def survival(median, variation, claim=12.0):
    """P(bound ≥ claim) of a lognormal bound."""
    z = log(median / claim) / sqrt(log(1 + variation**2))
    return 0.5 * (1 + erf(z / sqrt(2)))


def test_the_bounds_of_the_worked_example_are_read_as_published():
    assert [survival(*bound) for bound in BOUNDS] == pytest.approx(SURVIVAL, abs=1e-4)
    assert prod(SURVIVAL) == pytest.approx(0.1251, abs=1e-4)


@pytest.mark.parametrize("j", range(4))
def test_a_perfect_measurement_of_a_bound_resolves_the_published_share(j):
    each = [survival(*bound) for bound in BOUNDS]
    p = prod(each)
    # The claim holds only where the bound lies above it: P(above | untrue) = (S − p)/(1 − p).
    above = (each[j] - p) / (1 - p)
    chance, after = outcomes(p, np.array([1.0, 0.0]), np.array([above, 1 - above]))
    resolved = (chance * (after - p) ** 2).sum() / (p * (1 - p))
    assert resolved == pytest.approx(RESOLVED[j], abs=6e-4)


def test_a_symmetric_answer_that_errs_in_eleven_of_a_hundred_gives_half_a_bit():
    # C = 1 − h(0.11) (Cover and Thomas, Elements of Information Theory, 2nd ed., eq. 7.8, from
    # memory); h = 0.11·log2(1/0.11) + 0.89·log2(1/0.89) = 0.3503 + 0.1496 = 0.4999.
    found = bits(0.5, np.array([0.89, 0.11]), np.array([0.11, 0.89]))
    assert found == pytest.approx(0.5001, abs=1e-4)


def gaussian_channel():
    """Bits of ±1 seen with a normal error of 1: 1 − E[log2(1 + exp(−2y))], y from N(1, 1)."""
    expected, _ = quad(lambda y: norm.pdf(y, 1) * np.log2(1 + np.exp(-2 * y)), -12, 14)
    return 1 - expected


def test_a_number_with_a_normal_error_gives_what_the_integral_gives():
    # 0.486 bit at a signal-to-noise ratio of 0 dB, the value of the textbooks (from memory).
    assert gaussian_channel() == pytest.approx(0.486, abs=5e-4)
    unmet, met = np.full((1, NODES), -1.0), np.full((1, NODES), 1.0)
    chances = number_chances(np.concatenate([unmet, met]), 0.0, [1.0], [0.0])
    described = (chances - (1 - HABIT_TRUST) / OUTCOMES) / HABIT_TRUST
    assert bits(0.5, described[1], described[0])[0] == pytest.approx(0.486, abs=2e-3)


def test_observations_that_the_model_does_not_describe_take_their_share():
    nodes = np.stack([np.full(NODES, -2.0), np.full(NODES, 1.0)])
    unmet, met = number_chances(nodes, 0.0, [0.1], [0.0])
    # Of 1 bit, what 0.15 of blind outcomes leaves: no less than 1 − (1 − w) − h((1 − w)/2).
    assert 0.85 - entropy(0.075) < bits(0.5, met, unmet)[0] < 0.85 + 0.05


def test_chances_add_up_to_one_for_each_hypothesis():
    nodes = power_nodes(np.linspace(0, 4, 240), np.ones(240), 15.0)
    sigma, margin = np.array([0.02, 0.2, 0.6]), np.array([0.45, 0.0, 0.3])
    for chances in (number_chances(nodes, log(15), sigma, margin),
                    line_chances(nodes, log(15), [True, False, True], sigma, margin),
                    input_chances(nodes, [2.0, 3.0, 1.0], sigma + 0.1, margin, sigma)):
        assert chances.sum(-1) == pytest.approx(np.ones((2, 3)))


def test_a_half_normal_margin_lifts_the_mean_by_its_scale_times_root_two_over_pi():
    d = np.linspace(-4, 6, 4001)
    density = skew_normal(d, 0.2, 0.45)
    assert np.trapezoid(density, d) == pytest.approx(1.0, abs=1e-6)
    assert np.trapezoid(d * density, d) == pytest.approx(0.45 * sqrt(2 / pi), abs=1e-6)


def test_what_is_certain_leaves_nothing_to_learn():
    sharp = np.array([1.0, 0.0]), np.array([0.0, 1.0])
    assert bits(0.0, *sharp) == bits(1.0, *sharp) == 0
    assert bits(0.5, *sharp) == pytest.approx(1.0)


def test_an_answer_that_is_alike_either_way_says_nothing():
    assert bits(0.3, np.array([0.2, 0.8]), np.array([0.2, 0.8])) == pytest.approx(0, abs=1e-12)


def test_one_row_gives_what_many_give():
    met, unmet = np.array([[0.9, 0.1], [0.6, 0.4]]), np.array([[0.2, 0.8], [0.5, 0.5]])
    together = bits(np.array([0.4, 0.7]), met, unmet)
    assert together.tolist() == [bits(p, met[j], unmet[j]) for j, p in enumerate((0.4, 0.7))]


def test_values_of_equal_probability_stand_evenly_in_an_even_distribution():
    expected = (np.arange(NODES) + 0.5) / NODES
    assert equal_nodes(np.linspace(0, 1, 101), np.ones(100)) == pytest.approx(expected, abs=1e-9)


def test_without_evidence_each_hypothesis_has_its_fifth_far_off():
    # Log-uniform, with a fifth beyond 1.6 of the claim or below a thirtieth: 24 · 0.2 = 4.8.
    unmet, met = power_nodes(np.linspace(0, 4, 240), np.ones(240), 20.0)
    assert (met > log(1.6 * 20)).sum() in (4, 5) and (unmet < log(20 / 30)).sum() in (4, 5)
    assert unmet.max() < log(0.95 * 20) < met.min()


def test_evidence_draws_the_values_to_where_it_lies():
    points = np.linspace(0, 4, 240)
    unmet, met = power_nodes(points, np.exp(-0.5 * ((points - log(10)) / 0.05) ** 2), 20.0)
    assert np.median(unmet) == pytest.approx(log(10), abs=0.02)
    assert met.min() > log(0.95 * 20)


def test_a_voltage_that_is_not_available_stays_at_five_volts_as_often_as_said():
    x = np.linspace(log(4.5), log(20_000), EDGES[-1])
    unmet, met = voltage_nodes(x, np.ones(EDGES[-1]), 0.75)
    assert (unmet <= x[EDGES[1]]).sum() == 18          # 24 · 0.75
    assert met.min() > unmet.max()


def test_a_load_far_below_is_held_and_one_far_above_is_not():
    nodes = np.log([[4.0, 5.0], [20.0, 25.0]])
    assert held_chances(nodes, log(10), 0.02) == pytest.approx([0, 1], abs=1e-9)
    # Half of the values are the load itself, the other half lie far above: (0.5 + 1)/2.
    assert held_chances(np.log([[10.0, 100.0]]), log(10), 0.02) == pytest.approx([0.75])


def test_the_error_of_an_input_follows_the_conditional_normal_distribution():
    # sigma 0.5, of which the input has 0.4; the line lies d = 0.5 above. Described observations,
    # of weight 0.85·φ(1) = 0.2057, put the input's error at d·0.4²/0.5² = 0.32; mistaken ones, of
    # weight 0.15/4/√(2π) = 0.01496, at 0. Mean: 0.32·0.2057/(0.2057 + 0.01496) = 0.2983.
    nodes = np.zeros((2, NODES))
    chances = input_chances(nodes, [0.5], [0.5], [0.0], [0.4])
    z = 0.4 * 4 * (2 * (np.arange(OUTCOMES) + 0.5) / OUTCOMES - 1)
    assert (chances[0, 0] * z).sum() == pytest.approx(0.2983, abs=5e-4)


def test_a_better_input_says_more_where_the_line_decides_than_where_it_does_not():
    nodes = np.stack([np.linspace(-1, -0.05, NODES), np.linspace(-0.05, 0.5, NODES)])
    unmet, met = input_chances(nodes, [0.1, 5.0], [0.3, 0.3], [0.0, 0.0], [0.28, 0.28])
    near, far = bits(np.array([0.5, 0.5]), met, unmet)
    assert near > 0.3 and far < 0.01
