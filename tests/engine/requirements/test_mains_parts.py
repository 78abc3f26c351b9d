"""Ratings ahead of the converter."""
import numpy as np
import pytest

from teardowns.engine.requirements.mains_parts import bulk_voltage, inrush_current, rated_mains


# By hand: √2 · 1.1 · 240 = 373.4; of 120 V 186.7; a doubler halves it.
@pytest.mark.parametrize("mains, doubler, expected", [
    (240.0, False, 373.4), (120.0, False, 186.7), (240.0, True, 186.7)])
def test_the_bulk_capacitor_bears_the_peak(mains, doubler, expected):
    assert bulk_voltage(mains, doubler) == pytest.approx(expected, abs=0.05)


# By hand: √2 · 264 / 10 = 37.3 A (373.4 / 10); √2 · 240 / 4.7 = 72.2 A.
@pytest.mark.parametrize("mains, ohm, expected", [(264.0, 10.0, 37.3), (240.0, 4.7, 72.2)])
def test_the_first_surge(mains, ohm, expected):
    assert inrush_current(mains, ohm) == pytest.approx(expected, abs=0.05)


def test_ratings_are_compared_with_the_plate_the_plug_or_both_ends_of_all_mains():
    mains = rated_mains(np.array([240.0, np.nan, np.nan]), np.array(["", "nema1", ""]))
    assert mains.low.tolist() == [240.0, 120.0, 100.0]
    assert mains.high.tolist() == [240.0, 120.0, 240.0]
    assert mains.assumed["rated_mains"].tolist() == [False, False, True]
    assert mains.assumed["plug_mains"].tolist() == [False, True, False]
