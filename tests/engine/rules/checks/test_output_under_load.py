"""Printed voltage ± 10 % at the printed current: common practice, no source; worked out by hand."""
import pytest

from teardowns.engine.outcome import CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.output_under_load import output_under_load
from tests.engine.make import NAN


# 5.1 V − 0.1 Ω · 2 A = 4.9 V; 5.1 V − 0.4 Ω · 2 A = 4.3 V; 1.7 A lies below 1.8 A.
@pytest.mark.parametrize("idle, resistance, point, expected", [
    (5.1, 0.1, NAN, CONSISTENT), (5.1, 0.4, NAN, INCONSISTENT), (5.1, 0.1, 1.7, INCONSISTENT),
    (5.1, 0.1, 1.9, CONSISTENT)])
def test_a_single_output(idle, resistance, point, expected):
    assert output_under_load((5.0,), (2.0,), idle, resistance, point, 1).outcome == expected


def test_what_says_nothing():
    assert output_under_load((5.0,), (2.0,), NAN, 0.1, NAN, 1) is None
    assert output_under_load((5.0, 9.0), (2.0, 2.0), 5.1, 0.1, NAN, 1) is None


def test_a_point_of_one_of_several_ports_is_not_held_against_what_all_give():
    assert output_under_load((5.0,), (3.1,), NAN, NAN, 2.4, 2) is None
