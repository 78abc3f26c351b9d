"""Conducted emission limits."""
import numpy as np
import pytest

from teardowns.engine.requirements.emission import BELOW_QUASI_PEAK, quasi_peak_limit


# A handbook's table 4.4 and a course page: 66 dBµV at 0.15 MHz, 56 at 0.5, 60 at 10 MHz; at an edge
# the lower limit. Between by hand: 66 − 19.12 · lg(f/0.15).
@pytest.mark.parametrize("mega, expected", [
    (0.15, 66.0), (0.5, 56.0), (10.0, 60.0), (5.0, 56.0), (0.2, 63.61), (0.25, 61.76),
    (0.3, 60.24), (0.4, 57.85)])
def test_limits(mega, expected):
    assert quasi_peak_limit(mega * 1e6) == pytest.approx(expected, abs=0.006)


def test_outside_the_range_nothing_is_known():
    assert np.isnan(quasi_peak_limit(np.array([0.1e6, 31e6]))).all()


# The same table: average 56 dBµV at 0.15 MHz, 46 at 0.5 and at 5 MHz, 50 at 10 MHz.
@pytest.mark.parametrize("mega, expected", [(0.15, 56.0), (0.5, 46.0), (5.0, 46.0), (10.0, 50.0)])
def test_average_limits(mega, expected):
    assert quasi_peak_limit(mega * 1e6) - BELOW_QUASI_PEAK == pytest.approx(expected)
