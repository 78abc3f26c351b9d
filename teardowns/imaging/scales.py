"""What turns pixels into metres: two points and a length, or four corners of a rectangle."""
from dataclasses import dataclass

import numpy as np

from .homography import apply, from_corners

# Our assumption, no source: a length typed without its uncertainty was read off a ruler or caliper.
UNSTATED_SHARE, UNSTATED_LEAST = 0.01, 0.05e-3                       # of the length; m
SHORTEST_LINE = 10.0          # px: below it one click moves the scale by more than a tenth
SHORTEST_SIDE = 20.0          # px
SHARPEST_CORNER = 8.0         # degrees away from 0 and from 180
FURTHEST_RATIO = 2.5          # of the sides as seen to the sides as typed: about 66° of tilt


class ScaleError(ValueError):
    """A scale that cannot be used; the message says why and what to do."""


@dataclass(frozen=True)
class Scale:
    """Built by `two_points` or `four_corners`, which check what they are given."""

    points: tuple[tuple[float, float], ...]     # px, two or four
    lengths: tuple[float, ...]                  # m: one length, or width and height
    length_u: float                             # m, k = 1, of each length
    length_u_stated: bool = True

    @property
    def removes_perspective(self) -> bool:
        return len(self.points) == 4

    @property
    def matrix(self) -> np.ndarray:
        """(3, 3) Picture to plane: pixels to metres."""
        return matrices(self.points, self.lengths)

    @property
    def metres_a_pixel(self) -> float:
        """Over the scale itself; over a rectangle the mean."""
        if not self.removes_perspective:
            return self.lengths[0] / float(np.hypot(*np.diff(self.points, axis=0)[0]))
        return float(np.sqrt(self.lengths[0] * self.lengths[1] / abs(signed_area(self.points))))

    @property
    def sides_look_swapped(self) -> bool:
        """Whether width and height would fit better the other way round, seen not too aslant."""
        if not self.removes_perspective:
            return False
        seen, typed = _seen_ratio(self.points), np.log(self.lengths[0] / self.lengths[1])
        return bool(abs(seen + typed) < abs(seen - typed) - 0.2)

    def to_metres(self, points) -> np.ndarray:
        """(m, 2) Points of the picture, in metres on the plane; (m, 2) px."""
        found = apply(self.matrix, points)
        if np.isnan(found).any():
            raise ScaleError("A point lies beyond the horizon of the scale's plane: the rectangle "
                             "is seen too flat. Measure closer to it, or photograph from above.")
        return found


def two_points(points, length: float, length_u: float | None = None) -> Scale:
    """A scale by two points that lie `length` apart. px; m; m, k = 1, None where nobody said.

    It holds where the camera looks straight at the plane: `measuring` adds what a tilt would do.
    """
    points = _finite(points, 2, "two points")
    _check_lengths({"length": length}, length_u)
    if np.hypot(*np.subtract(*points)) < SHORTEST_LINE:
        raise ScaleError("The two points of the scale are the same, or nearly. Put them at both "
                         "ends of the known length.")
    return _scale(points, (float(length),), length_u)


def four_corners(points, width: float, height: float, length_u: float | None = None) -> Scale:
    """A scale by the corners of a rectangle, in turn; the first two lie `width` apart. px; m.

    length_u : k = 1, of width and of height, each on its own; None where nobody said
    """
    points = _finite(points, 4, "four corners")
    _check_lengths({"width": width, "height": height}, length_u)
    _check_corners(np.array(points))
    if signed_area(points) < 0.0:      # anticlockwise: the view from above would come out mirrored
        points = (points[1], points[0], points[3], points[2])
    scale = _scale(points, (float(width), float(height)), length_u)
    _check_view(scale)
    return scale


def stored_scale(points, lengths, length_u: float | None) -> Scale:
    """Two points with one length, or four corners with width and height: as a row keeps them."""
    if len(points) == 2:
        return two_points(points, lengths[0], length_u)
    width, height = lengths
    return four_corners(points, width, height, length_u)


def matrices(points, lengths) -> np.ndarray:
    """(..., 3, 3) Picture to plane. (..., 2 or 4, 2) px; (..., 1 or 2) m."""
    points, lengths = np.asarray(points, float), np.asarray(lengths, float)
    if points.shape[-2] == 4:
        return from_corners(points, lengths)
    apart = np.linalg.norm(points[..., 1, :] - points[..., 0, :], axis=-1)
    factor = lengths[..., 0] / apart
    return np.stack([factor, factor, np.ones_like(factor)], axis=-1)[..., :, None] * np.eye(3)


def signed_area(points) -> float:
    """Of a polygon; positive where its corners go clockwise as shown (y down). [px²]"""
    x, y = np.asarray(points, float).T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) / 2.0)


def _scale(points, lengths, length_u):
    assumed = max(UNSTATED_LEAST, UNSTATED_SHARE * max(lengths))
    return Scale(points, lengths, assumed if length_u is None else float(length_u),
                 length_u is not None)


def _finite(points, count, what):
    found = np.array(points, float)
    if found.shape != (count, 2) or not np.isfinite(found).all():
        raise ScaleError(f"The scale needs {what}, each as x and y.")
    return tuple((float(x), float(y)) for x, y in found)


def _check_lengths(lengths, length_u):
    for name, length in lengths.items():
        if not (np.isfinite(length) and length > 0.0):
            raise ScaleError(f"The {name} of the scale must be more than 0 mm.")
    if length_u is None:
        return
    if not (np.isfinite(length_u) and length_u >= 0.0):
        raise ScaleError("The uncertainty of the scale's length must be 0 mm or more.")
    if length_u > min(lengths.values()) / 4.0:
        raise ScaleError("The uncertainty of the scale's length is more than a quarter of the "
                         "length itself: that is no scale. Check both, and their units.")


def _check_corners(p):
    following, preceding = np.roll(p, -1, axis=0) - p, np.roll(p, 1, axis=0) - p
    sides = np.hypot(*following.T)
    diagonals = np.hypot(*(p[:2] - p[2:]).T)
    if min(*sides, *diagonals) < SHORTEST_SIDE:
        raise ScaleError("Two corners of the scale are the same, or nearly. Mark four different "
                         "corners; a rectangle this small in the picture is no scale.")
    turns = following[:, 0] * preceding[:, 1] - following[:, 1] * preceding[:, 0]
    angles = np.degrees(np.arcsin(np.clip(turns / (sides * np.roll(sides, 1)), -1.0, 1.0)))
    if abs(np.sign(angles).sum()) == 0:
        raise ScaleError("The corners of the scale are crossed. Go round the rectangle: each "
                         "corner next to the one before.")
    if np.abs(angles).min() < SHARPEST_CORNER:
        raise ScaleError("Three corners of the scale lie nearly on one line: seen this flat, a "
                         "rectangle is no scale. Photograph it more from above.")
    if abs(np.sign(angles).sum()) != 4:
        raise ScaleError("One corner of the scale lies inside the triangle of the others. No "
                         "rectangle looks like that: check the four corners.")


def _seen_ratio(points):
    p = np.array(points)
    sides = np.hypot(*(np.roll(p, -1, axis=0) - p).T)
    return float(np.log((sides[0] + sides[2]) / (sides[1] + sides[3])))


def _check_view(scale):
    """A length in the wrong unit, or a corner on the wrong thing, shows as an impossible tilt."""
    typed = np.log(scale.lengths[0] / scale.lengths[1])
    if min(abs(_seen_ratio(scale.points) - typed),
           abs(_seen_ratio(scale.points) + typed)) > np.log(FURTHEST_RATIO):
        raise ScaleError("The rectangle as marked is far longer or shorter than its width and "
                         "height say. Check the corners, and the width and the height.")
