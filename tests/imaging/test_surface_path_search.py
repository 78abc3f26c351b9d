"""Random contours: a dense search over all links that the measuring rules allow finds the same."""
import numpy as np
import pytest

from teardowns.imaging.surface_path import counted_length

SAMPLES, X = 300, 1.0


def contour(draw):
    """Hills and valleys in mm, from left to right, y down, air above."""
    count = draw.integers(6, 12)
    return np.column_stack([np.cumsum(draw.uniform(0.15, 1.2, count)), draw.uniform(0, 2.5, count)])


def by_search(points):
    """Shortest way over samples of the contour, each to the next or by an allowed link."""
    legs = np.diff(points, axis=0)
    at = np.concatenate([[0.0], np.cumsum(np.hypot(*legs.T))])
    along = np.unique(np.concatenate([np.linspace(0, at[-1], SAMPLES), at]))
    spots = np.stack([np.interp(along, at, axis) for axis in points.T], axis=1)
    slope = np.degrees(np.arctan2(legs[:, 1], legs[:, 0]))
    steeper = np.concatenate([[True], np.diff(slope) > 0, [True]])     # turns down: a rim
    rim = np.isin(along, at[steeper])
    least = np.zeros(len(along))
    for j in range(1, len(along)):
        least[j] = least[j - 1] + along[j] - along[j - 1]
        apart = np.hypot(*(spots[:j] - spots[j]).T)
        for i in np.flatnonzero((apart < X) & (least[:j] + apart < least[j])):
            falls = slope[np.searchsorted(at, along[i], side="right") - 1]
            rises = slope[np.searchsorted(at, along[j]) - 1]
            faces = 180 - abs(falls - rises) < 80
            if (faces or (rim[i] and rim[j])) and through_air(points, spots[i], spots[j]):
                least[j] = min(least[j], least[i] + apart[i])
    return least[-1]


def through_air(points, start, end):
    x, y = np.linspace(start, end, 30).T
    return (y <= np.interp(x, *points.T) + 1e-9).all()


@pytest.mark.parametrize("seed", range(12))
def test_no_allowed_way_is_shorter(seed):
    points = contour(np.random.default_rng(seed))
    found = counted_length(points * 1e-3, X * 1e-3, "left") / 1e-3
    # The search only knows its samples, some 0.04 mm apart: it may be longer by two a link.
    assert -0.15 < found - by_search(points) < 0.002
