"""Times of rows: over midnight, never backwards."""
import numpy as np
import pytest

from teardowns.logs.times import DAY, over_midnight, since_first, step_back


@pytest.mark.parametrize(("clock", "last", "counted"), [
    ([86398.0, 86399.0, 0.0, 1.0], None, [86398.0, 86399.0, 86400.0, 86401.0]),
    ([1.0, 2.0], 86399.0, [86401.0, 86402.0]),
    ([86399.0, 1.0], DAY + 86398.0, [DAY + 86399.0, 2 * DAY + 1.0]),
    ([7200.0, 3600.0], None, [7200.0, 3600.0]),         # an hour back is no midnight
    ([86399.0, 3601.0], None, [86399.0, 3601.0])])      # a pause of more than an hour: nor is that
def test_a_clock_counts_on_after_midnight(clock, last, counted):
    assert over_midnight(np.array(clock), last).tolist() == counted


@pytest.mark.parametrize(("times", "last", "row", "code"), [
    ([5.0, 6.0, 5.5], None, 2, "time_runs_back"), ([5.0, 6.0, 5.0], None, 2, "second_log"),
    ([6.0, 7.0], 6.5, 0, "time_runs_back"), ([4.0, 7.0], 6.5, 0, "second_log")])
def test_a_step_back_is_told_from_a_second_log(times, last, row, code):
    refused = step_back(np.array(times), 5.0, last)
    assert (refused.row, refused.why.code) == (row, code)


def test_equal_times_are_no_step_back():
    assert step_back(np.array([5.0, 5.0, 6.0]), 5.0, 5.0) is None


def test_tenths_of_a_second_survive_a_far_date():
    far = 825_638_400.0
    clock = far + np.array([0.0, 0.1, 0.2, 0.3])
    assert since_first(clock, far).tolist() == [0.0, 0.1, 0.2, 0.3]
