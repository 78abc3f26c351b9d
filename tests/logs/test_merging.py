import numpy as np
import pytest

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.extracted import Unread
from teardowns.logs.layout import LogColumn
from teardowns.logs.merging import beside, best_offset


def log(time, **columns):
    return Channels(np.asarray(time, float), tuple(
        Channel(LogColumn(n, role, role), np.asarray(values, float))
        for n, (role, values) in enumerate(columns.items(), 1)))


def staircase(time):
    """Watts: 2, 4, 6, 8, 10, two minutes each, then nothing."""
    return np.where(time < 600, 2.0 * (1 + time // 120), 0.0) * (time >= 0)


OUT = np.arange(0.0, 700.0, 1.0)
IN = np.arange(0.0, 800.0, 2.5)


def test_the_mains_side_is_read_at_the_times_of_the_log():
    # By hand: the other begins 10 s into the log and rises by 1 W a second.
    merged = beside(log([0, 10, 12.5, 20], output_power=[1, 1, 1, 1]),
                    log([0, 5, 10], input_power=[0, 5, 10]), 10.0)
    assert merged.of("input_power").values.tolist()[1:] == [0, 2.5, 10]
    assert np.isnan(merged.of("input_power").values[0])


def test_a_hole_in_the_other_log_stays_a_hole():
    time = [0, 1, 2, 3, 30, 31, 32]
    merged = beside(log([2, 15, 30], output_power=[1, 1, 1]), log(time, input_power=time), 0.0)
    assert np.isnan(merged.of("input_power").values).tolist() == [False, True, False]


def test_a_column_of_the_log_itself_stays():
    own = log([0, 1], output_power=[1, 1], input_power=[3, 3])
    assert beside(own, log([0, 1], input_power=[9, 9]), 0.0).of("input_power").values[0] == 3


@pytest.mark.parametrize("offset", [-37.0, 0.0, 42.0])
def test_the_offset_is_found_by_the_steps(offset):
    other = log(IN, input_power=staircase(IN + offset) / 0.8 + 0.1)
    found = best_offset(log(OUT, output_power=staircase(OUT)), other)
    assert found == pytest.approx(offset, abs=2.6)


def test_logs_of_two_tests_are_not_laid_together():
    noise = np.random.default_rng(3).normal(5, 1, len(IN))
    assert isinstance(best_offset(log(OUT, output_power=staircase(OUT)),
                                  log(IN, input_power=noise)), Unread)
    assert isinstance(best_offset(log(OUT, output_power=staircase(OUT)),
                                  log(IN, ambient_temperature=noise)), Unread)
