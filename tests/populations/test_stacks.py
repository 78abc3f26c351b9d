"""Units in the bins of one quantity."""
import numpy as np

from teardowns.populations.relation import MOST_POINTS
from teardowns.populations.stacks import MOST_AT_ENDS, stacks


def test_each_unit_lies_in_one_bin_the_smallest_first():
    found = stacks(np.array([5.0, 0.0, np.nan, 2.0]), np.ones(4, bool), 1.0, 10.0)
    assert found.rows.tolist() == [1, 3, 0]
    assert found.counts.sum() == 3 and found.counts[0] == 1
    assert found.bin[0] == 0 and not found.is_dense and found.points.tolist() == [1, 3, 0]


def test_units_that_are_not_chosen_are_in_no_bin():
    found = stacks(np.array([5.0, 2.0]), np.array([True, False]), 1.0, 10.0)
    assert found.rows.tolist() == [0] and found.spread.n == 1


def test_of_many_the_ends_are_named():
    values = np.linspace(1, 9, MOST_POINTS + 1)
    found = stacks(values, np.ones(len(values), bool), 1.0, 10.0)
    assert found.is_dense
    assert found.points.tolist() == [*range(MOST_AT_ENDS),
                                     *range(len(values) - MOST_AT_ENDS, len(values))]


def test_how_many_have_less_is_told_of_those_that_are_known():
    found = stacks(np.array([5.0, 0.0, np.nan, 2.0]), np.ones(4, bool), 1.0, 10.0)
    assert found.values.tolist() == [0.0, 2.0, 5.0]
    assert [found.below(value) for value in (0.0, 2.0, 2.5, 9.0)] == [0, 1, 2, 3]
