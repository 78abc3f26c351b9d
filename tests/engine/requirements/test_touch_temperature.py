"""Touch temperatures."""
import numpy as np
import pytest

from teardowns.engine.requirements.touch_temperature import (
    SURFACES,
    in_usual_air,
    largest_temperature,
)


# Plastic 77 °C (1 s to 10 s) and 48 to 94 °C: threads of a product-safety list; metal from memory.
@pytest.mark.parametrize("row, metal, plastic", [(0, 48, 48), (2, 60, 77), (3, 70, 94)])
def test_limits(row, metal, plastic):
    assert largest_temperature(np.array([True, False]), row).tolist() == [metal, plastic]


# IEC 62368-1:2018, table 38, from memory: TS2 lies 10 °C above TS1 for every material and contact,
# and what is touched for a shorter time may be hotter.
def test_the_second_class_lies_ten_degrees_above_the_first():
    cells = np.array([row[1:] for row in SURFACES.rows], float)
    np.testing.assert_array_equal(cells[:, 3:], cells[:, :3] + 10.0)
    assert (np.diff(cells, axis=0) > 0).all()


# By hand: 70 °C in air of 5 °C lie 65 K above it, 85 °C in air of 20; 99 °C in 45 are 84 in 30.
def test_a_surface_stays_as_much_above_the_air():
    air = np.array([5.0, 25.0, 45.0, np.nan])
    found = in_usual_air(np.array([70.0, 70.0, 99.0, 70.0]), air)
    np.testing.assert_array_equal(found, [85.0, 70.0, 84.0, 70.0])
