"""A part of a photo, cut out around what is marked on it: the picture's own pixels, enlarged."""
from __future__ import annotations

from dataclasses import dataclass

from teardowns.imaging.points import printed_number

from .markup import element, escape
from .photo_marks import DrawnMark, mark_way

AROUND = 0.6             # of the mark's longer side, kept free on each side of it
SMALLEST = 1 / 6         # of the picture's width: a point alone would be a blur
SHAPE = 4 / 3            # width by height of what is cut out, where the picture allows


@dataclass(frozen=True, slots=True)
class Region:
    """Of the whole picture, as shown. [px]"""

    left: float
    top: float
    width: float
    height: float


def region_around(mark: DrawnMark, width: float, height: float) -> Region:
    """What is cut out around a mark; it lies inside the picture, and holds the mark.

    width, height : of the picture. [px]
    """
    xs, ys = zip(*mark.points, strict=True)
    room = AROUND * max(max(xs) - min(xs), max(ys) - min(ys))
    across = max(max(xs) - min(xs) + 2 * room, SMALLEST * width)
    down = max(max(ys) - min(ys) + 2 * room, across / SHAPE)
    across = max(across, down * SHAPE)
    across, down = min(across, width), min(down, height)
    return Region(_placed((min(xs) + max(xs)) / 2, across, width),
                  _placed((min(ys) + max(ys)) / 2, down, height), across, down)


def _placed(middle, length, most):
    """Where a stretch begins that lies about its middle and inside 0 to most."""
    return min(max(middle - length / 2, 0.0), most - length)


def photo_region(mark: DrawnMark | None, source: str, width: float, height: float,
                 words: str) -> str:
    """The drawing; without a mark the whole picture. `words` says what is seen."""
    region = Region(0.0, 0.0, width, height) if mark is None else region_around(
        mark, width, height)
    box = " ".join(printed_number(value) for value in
                   (region.left, region.top, region.width, region.height))
    image = element("image", href=source, width=printed_number(width),
                    height=printed_number(height))
    way = () if mark is None else tuple(
        element("path", d=mark_way(mark, region.width), cls=cls) for cls in ("halo", "line"))
    return element("svg", element("title", escape(words)), image, *way, cls="region", role="img",
                   viewBox=box, width=f"{region.width:.0f}", height=f"{region.height:.0f}")
