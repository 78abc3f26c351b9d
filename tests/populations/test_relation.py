"""Who is drawn, in which order, and who stands out among many."""
import numpy as np

from teardowns.populations.relation import MOST_APART, MOST_POINTS, against_band, against_equal


def law(n):
    """Units on one line, but for the last, of a tenth of the power."""
    x = np.geomspace(10, 100, n)
    y = x * np.where(np.arange(n) % 2, 1.1, 0.9)
    y[-1] /= 10
    return x, y


def test_the_unit_farthest_from_the_band_is_told_first():
    x, y = law(30)
    found = against_band(x, y, np.ones(30, bool))
    assert found.rows[0] == 29 and found.off[29] < -1
    assert sorted(found.rows) == list(range(30))


def test_units_of_which_a_fact_is_unknown_are_left_out():
    x, y = law(30)
    x[3], y[5], y[6] = np.nan, np.nan, 0.0
    found = against_band(x, y, np.ones(30, bool))
    assert not {3, 5, 6} & set(found.rows.tolist())


def test_only_chosen_units_make_the_band_and_are_drawn():
    x, y = law(30)
    chosen = np.arange(30) < 24
    found = against_band(x, y, chosen)
    assert found.band.n == 24 and max(found.rows) == 23
    assert np.isnan(found.off[29])               # beyond the heaviest of them


def test_without_a_band_the_heaviest_comes_first():
    found = against_band(np.array([1.0, 3, 2]), np.ones(3), np.ones(3, bool))
    assert found.rows.tolist() == [1, 2, 0] and not found.is_dense


def test_the_widest_gap_below_a_claim_is_told_first():
    claim, capability = np.array([10.0, 20, 30]), np.array([10.0, 5, 33])
    assert against_equal(claim, capability, np.ones(3, bool)).rows.tolist() == [1, 0, 2]


def test_of_many_units_those_that_stand_out_at_either_side_are_points():
    n = MOST_POINTS + 200
    x = np.full(n, 10.0)
    y = 10 * np.exp(np.linspace(-1, 1, n))
    found = against_equal(x, y, np.ones(n, bool))
    assert found.is_dense and len(found.rows) == n
    assert found.points.tolist() == [*range(MOST_APART), *range(n - MOST_APART, n)]


def test_what_takes_all_units_is_worked_out_once():
    found = against_equal(np.array([1.0, 2.0]), np.array([2.0, 1.0]), np.ones(2, bool))
    assert [found.once("sum", lambda: found.x.sum()), found.once("sum", lambda: 0)] == [3.0, 3.0]
