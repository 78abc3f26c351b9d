"""Marks over a picture, in the picture's own pixels: every line twice, ink on a halo of paper."""
from collections.abc import Iterable
from dataclasses import dataclass

from teardowns.imaging.points import printed_number, printed_points

from .markup import element, escape

LABEL = 1 / 50          # height of a label, as a share of the picture's width; a script does better
CROSS = 1 / 80          # half the width of the cross of a point
LONGEST = 16            # characters that stand on the picture; the list has the whole label


@dataclass(frozen=True, slots=True)
class DrawnMark:
    key: str
    version: int
    shape: str                                 # point, line, path, polygon or box
    points: tuple[tuple[float, float], ...]    # px
    label: str
    is_meant: bool = False                     # the one that led here: it stands out


def marks_drawing(marks: Iterable[DrawnMark], width: int, height: int) -> str:
    """The drawing that lies over the picture; a list beside it says the same in words.

    Labels stand above all lines, for the next mark may lie on them.
    """
    marks = list(marks)
    return element("svg", *(_mark(mark, width) for mark in marks),
                   *(_label(mark, width) for mark in marks), cls="photo-marks",
                   viewBox=f"0 0 {width} {height}", font_size=f"{width * LABEL:.0f}",
                   aria_hidden="true")


def _mark(mark, width):
    way = mark_way(mark, width)
    return element("g", element("path", d=way, cls="halo"), element("path", d=way, cls="line"),
                   cls="chosen" if mark.is_meant else None,
                   id=f"mark-{mark.key}", data_key=mark.key,
                   data_version=mark.version,
                   data_shape=mark.shape,
                   data_points=printed_points(mark.points))


def _label(mark, width):
    if not mark.label:
        return ""
    x, y = max(mark.points, key=lambda point: (-point[1], point[0]))      # the highest point
    # Beyond the middle a label ends at its point: the picture's edge would cut it.
    side = "end" if x > width / 2 else "start"
    return element("text", escape(shortened(mark.label)), x=printed_number(x), y=printed_number(y),
                   text_anchor=side, cls="chosen" if mark.is_meant else None, data_of=mark.key)


def shortened(label: str) -> str:
    """A long label by its first word, which names the part."""
    return label if len(label) <= LONGEST else "".join(label.split()[:1])[:LONGEST]


def mark_way(mark: DrawnMark, width: float) -> str:
    """The mark as an SVG path; width : of what is drawn, which sizes the cross of a point. [px]"""
    if mark.shape == "point":
        (x, y), arm = mark.points[0], width * CROSS
        return (f"M{printed_number(x - arm)} {printed_number(y)}H{printed_number(x + arm)}"
                f"M{printed_number(x)} {printed_number(y - arm)}V{printed_number(y + arm)}")
    if mark.shape == "box":
        (left, top), (right, bottom) = mark.points
        x1, y1, x2, y2 = map(printed_number, (left, top, right, bottom))
        return f"M{x1} {y1}H{x2}V{y2}H{x1}Z"
    way = "L".join(f"{printed_number(x)} {printed_number(y)}" for x, y in mark.points)
    return f"M{way}{'Z' if mark.shape == 'polygon' else ''}"
