"""What can be bought: makers choose from steps, not from a continuum.

Capacitor steps: the E12 series of IEC 60063, as single cans or two alike in parallel. Voltage
ratings: the usual ratings of aluminium electrolytics. Published power tables: wide-range and
230 V figures in the proportions of a published one (2.5/5, 5/8 and 7.5/10 W) and, above it,
common practice without a source.
"""
import numpy as np

_E12 = np.array([1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2])
_SINGLE = np.concatenate([_E12, 10 * _E12, 100 * _E12])
CAPACITANCE = 1e-6 * np.unique(np.concatenate([_SINGLE, 2 * _SINGLE]).round(2))
CAPACITOR_RATING = np.array([6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 100.0])
POWER_WIDE = np.array([2.5, 4, 5, 6, 7.5, 9, 12, 15, 18, 20, 24, 27, 30, 36, 45, 50, 65, 75, 100.0])
POWER_HIGH = np.array([5, 6, 8, 9, 10, 12, 16, 20, 24, 27, 32, 36, 40, 48, 60, 65, 85, 100, 130.0])


def nearest(steps, value):
    """The step nearest in ratio."""
    edges = np.sqrt(steps[1:] * steps[:-1])
    return steps[np.searchsorted(edges, value)]


def step_above(steps, value):
    """Index of the first step that is not below; the last where none is."""
    return np.minimum(np.searchsorted(steps, value), len(steps) - 1)
