"""What a picture would look like straight from above, as far as its scale reaches."""
from dataclasses import dataclass

import numpy as np
from PIL import Image

from .homography import apply, rectified
from .scales import Scale

REACH = 2.0          # times the rectangle to each side: further out a tilt smears what is seen


@dataclass(frozen=True)
class View:
    matrix: np.ndarray            # (3, 3) pixels of the picture to pixels of the view
    size: tuple[int, int]         # px
    metres_a_pixel: float
    seen_in: tuple[int, int]      # size of the picture that `matrix` speaks of, px


def view_from_above(scale: Scale, size: tuple[int, int], longest: int = 2560) -> View:
    """The part of the plane that the picture shows around its scale.

    size : of the picture [px]; longest : side of the view at most [px]
    """
    low, high = _extent(scale, size)
    pixel = max(scale.metres_a_pixel, float((high - low).max()) / longest)
    width, height = (max(1, int(side)) for side in np.ceil((high - low) / pixel - 1e-9))
    to_pixels = np.array([[1 / pixel, 0, -low[0] / pixel], [0, 1 / pixel, -low[1] / pixel],
                          [0, 0, 1]])
    return View(to_pixels @ scale.matrix, (width, height), pixel, size)


def drawn(image: Image.Image, view: View) -> Image.Image:
    """The view of a picture, or of a smaller copy of it; what it does not show is black."""
    grown = np.diag([view.seen_in[0] / image.width, view.seen_in[1] / image.height, 1.0])
    return rectified(image, view.matrix @ grown, view.size)


def _extent(scale, size):
    """Corners of the smallest upright rectangle on the plane that holds what is seen. [m]"""
    share = np.linspace(0.0, 1.0, 33)
    edge = np.concatenate([np.stack([share, side * np.ones(33)], axis=1)[:, order]
                           for side in (0.0, 1.0) for order in ([0, 1], [1, 0])]) * size
    marked = apply(scale.matrix, scale.points)
    low, high = marked.min(axis=0), marked.max(axis=0)
    room = (high - low).max() * REACH
    seen = apply(scale.matrix, edge)
    if np.isnan(seen).any():               # the horizon is in the picture: as far as we look
        return low - room, high + room
    return np.maximum(seen.min(axis=0), low - room), np.minimum(seen.max(axis=0), high + room)
