"""Temperatures in the warmest allowed air, and limits of windings."""
import numpy as np
import pytest

from teardowns.engine.requirements.part_temperatures import corrected, winding_limit


# Readings of a test report at 27.2 °C, shifted by hand to 40 °C: 103.3 → 116.1, 77.2 → 90.0.
@pytest.mark.parametrize("measured, expected", [(103.3, 116.1), (77.2, 90.0)])
def test_the_shift_to_the_warmest_air(measured, expected):
    assert corrected(measured, 27.2, 40.0) == pytest.approx(expected)


def test_without_a_marked_ambient_25_degrees_are_taken():
    assert corrected(80.0, 30.0, float("nan")) == 75.0
    assert np.isnan(corrected(80.0, float("nan"), 40.0))


def test_limits_by_class():
    # 110 °C for class 130: test report on a charger; the others from memory.
    found = winding_limit(np.array([105.0, 120.0, 130.0, 155.0, 180.0, 140.0]))
    np.testing.assert_array_equal(found, [90, 105, 110, 130, 155, float("nan")])
