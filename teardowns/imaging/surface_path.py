"""The length along a surface that counts as creepage, from points measured on a picture.

IEC 60664-1:2020, 6.8, and IEC 62368-1:2018, annex O: what is narrower than X is bridged, the bottom
of a V under 80° is cut short by a link of X, a slot through the board is walked round. X depends on
the pollution degree and on the clearance; it is the caller's.
"""
from typing import NamedTuple

import numpy as np

WIDE_ANGLE = np.radians(80.0)
NEAR = 1e-9                   # m: what is closer touches
MOST_POINTS = 60
TURNS = {"left": (1.0,), "right": (-1.0,), None: (1.0, -1.0)}


class Links(NamedTuple):
    """Places where a path may leave the contour and come back to it further on, a row each."""

    start: np.ndarray         # (k,) m along the contour
    end: np.ndarray           # (k,) m along the contour
    leaves: np.ndarray        # (k, 2) m
    returns: np.ndarray       # (k, 2) m

    @property
    def saves(self) -> np.ndarray:
        return self.end - self.start - np.linalg.norm(self.returns - self.leaves, axis=1)


def bridged(points, narrowest: float, air: str | None = None) -> np.ndarray:
    """A contour with every gap that is too narrow to count bridged by a straight link.

    Parameters
    ----------
    points : (m, 2) float
        A cut through the surface from conductor to conductor, x right, y down. [m]
    narrowest : float
        X, the smallest width that counts. [m]
    air : "left", "right" or None
        Where the air is, going along the contour. Only what opens to the air is bridged; a rib is
        walked over. None: nobody said, gaps to both sides are bridged, and the length is the least
        that can count.

    Returns
    -------
    (n, 2) float
        The path that counts. [m]

    Errors
    ------
    Formula: exact for the polygon as drawn, unless two links want the same stretch of it: of those
    the ones that save more are taken. ValueError in the user's words.
    """
    points = _checked(points, narrowest, air)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    found = [_links(points, along, narrowest, turn) for turn in TURNS[air]]
    links = Links(*(np.concatenate(columns) for columns in zip(*found, strict=True)))
    path, at = [points[0]], 0.0
    for n in _best(links):
        path += [*points[(along > at + NEAR) & (along < links.start[n] - NEAR)],
                 links.leaves[n], links.returns[n]]
        at = links.end[n]
    path += [*points[(along > at + NEAR) & (along < along[-1] - NEAR)], points[-1]]
    return _without_repeats(np.array(path))


def counted_length(points, narrowest: float, air: str | None = None) -> float:
    """Length of the path that counts, as `bridged` finds it. [m]"""
    return float(np.hypot(*np.diff(bridged(points, narrowest, air), axis=0).T).sum())


def _checked(points, narrowest, air):
    points = np.asarray(points, float)
    if air not in TURNS:
        raise ValueError("The air lies on the left of the path, on its right, or nobody said.")
    if not narrowest >= 0.0:
        raise ValueError("The smallest width that counts must be 0 mm or more.")
    if len(points) > MOST_POINTS:
        raise ValueError(f"A path with grooves takes at most {MOST_POINTS} points.")
    return _without_repeats(points)


def _without_repeats(points):
    moved = np.hypot(*np.diff(points, axis=0).T) > NEAR
    if not moved.any():
        raise ValueError("A path along a surface needs at least two different points.")
    return points[np.concatenate([[True], moved])]


def _links(points, along, narrowest, turn):
    """Whatever may be bridged towards one side; turn: 1 where the air is on the left."""
    narrowest *= 1.0 - 1e-6                       # a gap of exactly X counts by its contour
    i, s, j, t = np.concatenate([_between_walls(points, narrowest),
                                 _between_rims(points, narrowest, turn)], axis=1)
    i, j, legs = i.astype(int), j.astype(int), np.diff(points, axis=0)
    links = Links(along[i] + s * np.diff(along)[i], along[j] + t * np.diff(along)[j],
                  points[i] + s[:, None] * legs[i], points[j] + t[:, None] * legs[j])
    free = (links.saves > NEAR) & (turn * _cut_off(points, links, i, j) < 0.0)
    kept = np.flatnonzero(free)
    crossed = _crosses(links.leaves[kept, None], links.returns[kept, None], points[:-1], points[1:])
    return Links(*(column[kept[~crossed.any(axis=1)]] for column in links))


def _cut_off(points, links, i, j):
    """(k,) Twice the area between contour and link; negative where it lies on the left. [m²]"""
    swept = np.concatenate([[0.0], np.cumsum(_cross(points[:-1], points[1:]))])
    return (swept[j] - swept[i + 1] + _cross(links.leaves, points[i + 1])
            + _cross(points[j], links.returns) + _cross(links.returns, links.leaves))


def _between_walls(points, narrowest):
    """(4, k) Links between two stretches that face each other at less than 80°: the number of the
    one and what share along it, the same of the other.

    Of all links up to X long the one that saves most: from edge to edge if that is short enough,
    else square to the bisector, else with one end where a stretch begins or ends.
    """
    legs = np.diff(points, axis=0)
    lengths = np.hypot(*legs.T)
    ways = legs / lengths[:, None]
    i, j = np.triu_indices(len(legs), 1)
    facing = -np.sum(ways[i] * ways[j], axis=1) > np.cos(WIDE_ANGLE)
    i, j = i[facing], j[facing]
    s, t = _best_ends(points[j] - points[i], ways[i], ways[j], lengths[i], lengths[j], narrowest)
    return np.array([i, s / lengths[i], j, t / lengths[j]])[:, ~np.isnan(s)]


def _best_ends(w, d, e, first, second, narrowest):
    """How far along each of the two stretches its link begins and ends; NaN where none is. [m]

    w, d, e : (k, 2) from start to start, and both directions; first, second : (k,) lengths [m]
    """
    zero = np.zeros_like(first)
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = np.array([
            (zero, second), _square_to_bisector(w, d, e, narrowest),
            *((s, _root(w - s[:, None] * d, e, narrowest)) for s in (zero, first)),
            *((-_root(w + t[:, None] * e, d, narrowest), t) for t in (zero, second))])
        s, t = ends[:, 0], ends[:, 1]
        apart = np.linalg.norm(w + t[..., None] * e - s[..., None] * d, axis=-1)
        fits = ((s >= -NEAR) & (s <= first + NEAR) & (t >= -NEAR) & (t <= second + NEAR)
                & (apart <= narrowest + 1e-12))
    saved = np.where(fits, t - s, -np.inf)
    best, k = np.argmax(saved, axis=0), np.arange(len(first))
    found = np.isfinite(saved[best, k])
    return np.where(found, s[best, k], np.nan), np.where(found, t[best, k], np.nan)


def _square_to_bisector(w, d, e, length):
    """(s, t) of the link with w + t e − s d = length · n, n the direction of d + e."""
    across = d + e
    rest = across / np.hypot(*across.T)[:, None] * length - w
    whole = _cross(e, d)
    return _cross(rest, e) / whole, _cross(rest, d) / whole


def _root(v, e, length):
    """The largest t with |v + t e| = length."""
    half = _dot(v, e)
    return -half + np.sqrt(half ** 2 - _dot(v, v) + length ** 2)


def _dot(a, b):
    return np.sum(a * b, axis=-1)


def _cross(a, b):
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def _between_rims(points, narrowest, turn):
    """(4, k) Links between two places where the contour turns away from the air, or ends."""
    away = _cross(np.diff(points[:-1], axis=0), np.diff(points[1:], axis=0)) * turn > 0.0
    rims = np.flatnonzero(np.concatenate([[True], away, [True]]))
    i, j = (rims[k] for k in np.triu_indices(len(rims), 1))
    close = (np.linalg.norm(points[j] - points[i], axis=1) < narrowest) & (j > i + 1)
    i, j = i[close], j[close]
    return np.array([i, np.zeros(len(i)), j - 1, np.ones(len(j))])


def _crosses(a, b, starts, ends):
    """Whether a line passes through each of the others, not merely touching it."""
    def side(p, q, r):
        found = _cross(q - p, r - p)
        return np.where(np.abs(found) < NEAR * np.linalg.norm(q - p, axis=-1), 0.0, found)

    return (side(a, b, starts) * side(a, b, ends) < 0.0) & (
        side(starts, ends, a) * side(starts, ends, b) < 0.0)


def _best(links):
    """Which links, in order and none over another, save most together."""
    order = np.argsort(links.end, kind="stable")
    ends, saves = links.end[order], links.saves[order]
    before = np.searchsorted(ends, links.start[order] + NEAR, side="right")
    best: list[tuple[float, tuple[int, ...]]] = [(0.0, ())]
    for n, link in enumerate(order):
        saved, taken = best[min(before[n], n)]
        best.append(max(best[-1], (saved + saves[n], (*taken, link)), key=lambda found: found[0]))
    return best[-1][1]
