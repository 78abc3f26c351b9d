from math import sqrt

import numpy as np
import pytest

from teardowns.logs.accuracy import (
    accuracy_of,
    limit_of_error,
    reading_budget,
    scatter_of_mean,
    together,
)
from teardowns.logs.channels import Channel
from teardowns.logs.conditions import Accuracy, Conditions
from teardowns.logs.layout import LogColumn

STATED = Conditions(accuracies={"output_voltage": Accuracy(0.001, 0.01, 3.0)})


def channel(role="output_voltage", step=0.01):
    return Channel(LogColumn(1, "", role), np.array([5.0]), step)


def test_the_limit_is_a_share_of_the_reading_a_fixed_part_and_digits():
    # 0.1 % of 5 V + 10 mV + 3 digits of 10 mV = 5 + 10 + 30 mV
    assert limit_of_error(channel(), STATED, 5.0) == pytest.approx(0.045)


def test_a_hand_held_meter_is_assumed_where_nothing_is_stated():
    # Basis of load tests (common practice): 0.5 % + 2 digits. 25 mV + 20 mV.
    assert limit_of_error(channel(), Conditions(), 5.0) == pytest.approx(0.045)
    assert not accuracy_of(channel(), Conditions())[1]


def test_limits_of_error_are_rectangular():
    # JCGM 100, 4.3.7: half-width over the root of three.
    (name, share), *_ = reading_budget(channel(), STATED, 5.0, "voltage")
    assert "as stated" in name and share == pytest.approx(0.045 / sqrt(3))


def test_the_last_digit_is_half_a_digit_either_way():
    budget = dict(reading_budget(channel(), STATED, 5.0, "voltage"))
    assert budget["voltage, last digit"] == pytest.approx(0.005 / sqrt(3))


def test_an_assumption_is_named_in_the_budget():
    (name, _), *_ = reading_budget(channel(), Conditions(), 5.0, "voltage")
    assert "assumed 0.5 % + 2 digits" in name


def test_readings_that_repeat_are_no_new_evidence():
    fresh = np.array([1.0, 2.0, 1.0, 2.0])
    assert scatter_of_mean(fresh) == pytest.approx(0.5 / 2)
    assert scatter_of_mean(np.repeat(fresh, 10)) == pytest.approx(0.5 / 2)


def test_one_reading_has_no_scatter():
    assert scatter_of_mean(np.array([3.0])) == 0.0


def test_shares_add_as_squares():
    assert together((("a", 3.0), ("b", 4.0))) == 5.0
    assert together(()) == 0.0
