import numpy as np
import pytest

from teardowns.figures.axes import Axis
from teardowns.figures.curves import level_axis, path_data

UNIT = Axis(0.0, 1.0, ())


def test_a_path_runs_from_the_lower_left_to_the_upper_right():
    assert path_data([(0, 0), (1, 1)], UNIT, UNIT, 120) == "M0.0 120.0h0L1000.0 0.0"


def test_a_gap_lifts_the_pen_and_a_point_alone_is_a_dot():
    points = [(0, 0), (0.25, np.nan), (0.5, 0.5), (0.75, np.nan), (1, 1)]
    assert path_data(points, UNIT, UNIT, 100) == "M0.0 100.0h0M500.0 50.0h0M1000.0 0.0h0"


@pytest.mark.parametrize("level", [0.0, 5.0, -40.0, 1e-9])
def test_one_level_alone_stands_inside_its_axis(level):
    axis = level_axis([level, level])
    assert axis.low < level < axis.high


def test_an_axis_holds_all_that_is_finite():
    axis = level_axis([np.nan, 4.9, 5.1])
    assert axis.low <= 4.9 and axis.high >= 5.1
