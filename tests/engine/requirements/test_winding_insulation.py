import numpy as np
import pytest

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS
from teardowns.engine.requirements.winding_insulation import could_be_solid, grade_layers

NAN = float("nan")


def graded(low, high, solid=0.0, withstood=False, wire="none", traced=1.0):
    return int(grade_layers(*(np.array([part]) for part in (
        low, high, solid, withstood, wire, traced))).grade[0])


# IEC 62368-1:2018, 5.4.4.6: each of two layers, any two of three.
@pytest.mark.parametrize("count, withstood, expected", [
    (0, False, FALLS_SHORT), (1, False, FALLS_SHORT), (2, False, CANNOT_TELL), (2, True, MEETS),
    (1, True, FALLS_SHORT), (3, False, MEETS), (9, False, MEETS)])
def test_thin_layers_by_their_number(count, withstood, expected):
    assert graded(count, count, withstood=withstood) == expected


# IEC 62368-1:2018, 5.4.4.2: 0.4 mm; the thickness is known to 0.1 mm.
@pytest.mark.parametrize("millimetres, expected", [
    (0.29, FALLS_SHORT), (0.31, CANNOT_TELL), (0.49, CANNOT_TELL), (0.51, MEETS),
    (NAN, CANNOT_TELL)])
def test_one_solid_layer_by_its_thickness(millimetres, expected):
    assert graded(1, 1, solid=millimetres * 1e-3) == expected


def test_where_nobody_knows_the_most_enough_intact_ones_still_do():
    assert [graded(NAN, high) for high in (0, 2, 3)] == [CANNOT_TELL, CANNOT_TELL, MEETS]


def test_a_layer_of_unknown_thickness_may_be_solid():
    assert could_be_solid([0.05e-3, 0.35e-3, NAN]).tolist() == [False, True, True]
