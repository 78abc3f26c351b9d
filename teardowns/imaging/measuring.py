"""A length measured on a picture, and how far it may be off, source by source.

Each source of error is stepped by one standard uncertainty and the length worked out anew: half of
f(x + u) − f(x − u), JCGM 100:2008 (GUM), 5.1.3, note 2. The shares add up in squares.
"""
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from .homography import apply
from .scales import Scale, ScaleError, matrices

# Our assumptions; common practice, no source. Each is a standard uncertainty (k = 1).
CLICK_U = 3.0                 # px: of one click, where nobody clicked the same point repeatedly
TILT_U = np.radians(10.0)     # of a hand that holds the camera straight above, as it thinks
LENS_U = 0.005                # how far the lens shifts a corner of the picture, of its distance
HEIGHT_U = 5e-3               # m: how far what is measured lies above or below the scale's plane
FOCAL_LENGTH = 0.7            # of the longer side: the wide camera of a phone (25 mm on 36 x 24)
LEAST_CLICK_U = 12 ** -0.5    # px: half a pixel each way, rectangular; GUM, F.2.2.1

AZIMUTHS = np.arange(16) * np.pi / 8.0
# For a tilt N(0, u): nodes 0 and ±√3 u with weights 2/3 and 1/6 (three-point Gauss-Hermite).
TILT_NODE, TILT_WEIGHT = 3 ** 0.5, 1.0 / 3.0
LARGEST_TILT_U = np.radians(25.0)


@dataclass(frozen=True)
class Part:
    name: str
    share: float              # m, k = 1


@dataclass(frozen=True)
class Reading:
    value: float              # m
    uncertainty: float        # m, k = 1
    budget: tuple[Part, ...]  # largest first


@dataclass(frozen=True)
class Agreement:
    difference: float                 # first less second
    normalised: float | None          # of the expanded uncertainty of the difference; None: unknown
    agrees: bool | None               # None where an uncertainty is unknown: cannot tell


def path_length(points) -> np.ndarray:
    """(...,) Sum of the legs. (..., m, 2)."""
    return np.linalg.norm(np.diff(points, axis=-2), axis=-1).sum(axis=-1)


def measure(scale: Scale, points, click_u: float, *, size: tuple[int, int],
            tilt_u: float | None = None, lens_u: float = LENS_U, off_plane: bool = False,
            along: Callable[[np.ndarray], float] | None = None) -> Reading:
    """Length of a line or an open path, with its budget.

    Parameters
    ----------
    points : (m, 2) float
        At least two, as clicked. [px]
    click_u : float
        Of one click along each axis, k = 1, see `click_uncertainty`. [px]
    size : (2,) int
        Width and height of the picture. [px]
    tilt_u : float or None
        Of the camera's axis against the plane; it counts for a scale of two points, four corners
        take the tilt out. None: `TILT_U`. [rad]
    lens_u : float
        How far the lens shifts a corner of the picture, of its distance from the centre. [1]
    off_plane : bool
        What is measured lies above or below the scale's plane, both its ends alike.
    along : function of (m, 2) metres, or None
        Measures along the points, such as the length that counts as creepage; None: all legs. [m]

    Errors
    ------
    Formula: first order in clicks, length and lens; tilt by quadrature over a tilt N(0, tilt_u)
    to any side. Raises ValueError (ScaleError among them) in the user's words.
    """
    marked, points = np.array(scale.points), np.asarray(points, float)
    _check(points, click_u, lens_u, tilt_u)

    def lengths(marked=marked, known=scale.lengths, points=points):
        there = apply(matrices(marked, known), points)
        return path_length(there) if along is None else np.array([along(each) for each in there])

    scale.to_metres(points)            # says so where a point lies beyond the horizon
    value = float(lengths(points=points[None])[0])
    if not value > 0.0:
        raise ValueError("The points of what is measured are all the same. Mark both its ends.")
    lens_marked, lens_points = (_through_lens(each, size, lens_u) for each in (marked, points))
    parts = [
        Part("Length of the scale", _swing(lengths(
            known=_stepped(scale.lengths, scale.length_u), points=points))),
        Part("Clicks on the scale", _swing(lengths(marked=_stepped(marked, click_u)))),
        Part("Clicks on what is measured", _swing(lengths(points=_stepped(points, click_u)))),
        Part("Lens", _swing(lengths(marked=lens_marked, points=lens_points))),
    ]
    if not scale.removes_perspective:
        seen = _aslant([marked, points], size, TILT_U if tilt_u is None else tilt_u)
        parts.append(Part("Tilt of the camera", _spread(lengths(marked=seen[0], points=seen[1]),
                                                        value)))
    if off_plane:
        parts.append(Part("Height above or below the scale", _height_share(scale, size) * value))
    return _reading(value, parts)


def click_uncertainty(clicks) -> float:
    """Of one click along each axis, from three or more clicks on one and the same point. [px]

    clicks : (n, 2) float [px]

    Few clicks say little about their own spread, so it is widened as the t distribution asks:
    √(ν / (ν − 2)), JCGM 101:2008, 6.4.9.4, here with ν = 2 (n − 1) for both axes together.
    """
    clicks = np.asarray(clicks, float)
    if clicks.ndim != 2 or len(clicks) < 3:
        raise ValueError("Click the same point at least three times: fewer say nothing about how "
                         "far one click may be off.")
    freedom = 2.0 * (len(clicks) - 1)
    spread = float(np.sqrt(np.var(clicks, axis=0, ddof=1).mean() * freedom / (freedom - 2.0)))
    return max(spread, LEAST_CLICK_U)


def agreement(a: float, ua: float | None, b: float, ub: float | None) -> Agreement:
    r"""Whether two readings of one length agree; u: k = 1, None where unknown. [m]

    .. math:: E_n = (a - b) / (2 \sqrt{u_a^2 + u_b^2}), \quad |E_n| \le 1

    ISO 13528:2022, 9.7 (from memory). It holds for readings that err apart: where both used one
    scale, the scale's own share belongs to neither.
    """
    difference = a - b
    if ua is None or ub is None or not (ua or ub):
        return Agreement(difference, None, None)
    normalised = difference / (2.0 * float(np.hypot(ua, ub)))
    return Agreement(difference, normalised, abs(normalised) <= 1.0)


def _check(points, click_u, lens_u, tilt_u):
    if points.ndim != 2 or points.shape[1] != 2 or len(points) < 2:
        raise ValueError("A length needs at least two points.")
    if not (np.isfinite(points).all() and np.isfinite(click_u) and click_u > 0.0):
        raise ValueError("How far one click may be off must be more than 0 pixels.")
    if not 0.0 <= lens_u <= 0.2:
        raise ValueError("How far the lens shifts a corner must lie between 0 and 20 %.")
    if tilt_u is not None and not 0.0 <= tilt_u <= LARGEST_TILT_U:
        raise ValueError("The tilt of the camera must lie between 0° and 25°: where it was held "
                         "more aslant, use four corners as the scale.")


def _stepped(values, u):
    """(2 n, …) One value after the other, a step up and a step down."""
    values = np.asarray(values, float)
    steps = np.eye(values.size).reshape(-1, *values.shape) * u
    return values + np.stack([steps, -steps], axis=1).reshape(-1, *values.shape)


def _swing(lengths):
    """What pairs of a step up and a step down come to, together. [m]"""
    return float(np.sqrt(np.sum((lengths[0::2] - lengths[1::2]) ** 2)) / 2.0)


def _spread(lengths, value):
    return float(np.sqrt(TILT_WEIGHT * np.mean((lengths - value) ** 2)))


def _through_lens(points, size, lens_u):
    """(2, n, 2) Where the points would lie if the lens bent outwards, and inwards: r (1 ± k r²)."""
    from_centre = points - np.array(size) / 2.0
    squared = np.sum(from_centre ** 2, axis=-1, keepdims=True) / (np.hypot(*size) / 2.0) ** 2
    return points + from_centre * squared * np.array([lens_u, -lens_u])[:, None, None]


def _aslant(groups, size, tilt_u):
    """Each group as (16, n, 2): laid out on a plane that is tilted to each side in turn. [px]

    The rays of a pinhole meet the plane that the camera's axis meets at a distance of 1.
    """
    tilt, focal = TILT_NODE * tilt_u, FOCAL_LENGTH * max(size)
    across = np.stack([np.cos(AZIMUTHS), np.sin(AZIMUTHS)], axis=-1)[:, None, :]     # downhill
    laid = []
    for points in groups:
        ray = (points - np.array(size) / 2.0) / focal
        downhill = np.sum(ray * across, axis=-1, keepdims=True)
        depth = 1.0 / np.where(downhill * np.tan(tilt) < 1.0, 1.0 - downhill * np.tan(tilt), np.nan)
        laid.append(depth * (ray + downhill * across * (1.0 / np.cos(tilt) - 1.0)))
    return laid


def _height_share(scale, size):
    """How far a length at another height is off, of itself: height over the camera's distance."""
    return HEIGHT_U / (FOCAL_LENGTH * max(size) * scale.metres_a_pixel)


def _reading(value, parts):
    shares = np.array([part.share for part in parts])
    if not np.isfinite(shares).all():
        raise ScaleError("What is measured lies too close to the horizon of the scale's plane. "
                         "Measure closer to the scale, or photograph from above.")
    return Reading(value, float(np.sqrt(np.sum(shares ** 2))),
                   tuple(sorted(parts, key=lambda part: -part.share)))
