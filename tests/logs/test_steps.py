import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import LogColumn
from teardowns.logs.steps import Range, steps_for_table


def log(values):
    column = LogColumn(1, "U", "output_voltage")
    time = np.arange(len(values), dtype=float)
    return Channels(time, (Channel(column, np.array(values, float)),))


def test_a_step_tells_lowest_mean_and_highest():
    first, second = steps_for_table(log([1, 2, 6, 5, 5, 8]), (0, 3, 5))
    assert first.ranges == (Range(1, 3, 6),)          # (1 + 2 + 6) / 3 = 3
    assert second.ranges == (Range(5, 6, 8),)         # (5 + 5 + 8) / 3 = 6


def test_each_sample_falls_into_one_step():
    steps = steps_for_table(log(range(11)), (0, 4, 8, 10))
    assert [step.rows for step in steps] == [4, 4, 3]


def test_blanks_are_no_numbers():
    with_one, without = steps_for_table(log([np.nan, 4, np.nan, np.nan]), (0, 2, 3))
    assert with_one.ranges == (Range(4, 4, 4),)
    assert without.ranges == (None,)
