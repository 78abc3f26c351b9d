"""How each kind of evidence is drawn on the power axis.

A limit is a solid bar against a wall at its upper end, practice an open capsule with a diamond, a
test a stroke with an arrow into the side that remains. A switch has no place on the axis.
"""
from .axes import Axis
from .markup import element, percent, pinned

ARROW_SPAN = 20          # percent of the width that an arrow's dotted tail covers
NEVER = element("line", cls="unm", x1="0", x2="100%", y1="50%", y2="50%")


def limit(axis: Axis, value: float, low: float, high: float) -> str:
    start, middle, end = axis(low), axis(value), axis(high)
    return _centred(
        element("rect", cls="lim-b", x=percent(start), width=percent(end - start), y=-6, height=12)
        + _stroke("lim-c", middle, 6)
        + _stroke("lim-w", end, 12)
    )


def practice(axis: Axis, value: float, low: float, high: float) -> str:
    start, end = axis(low), axis(high)
    capsule = element("rect", cls="pra-b", x=percent(start), width=percent(end - start),
                      y=-5, height=10, rx=5)
    diamond = element("path", cls="pra-c", d="M0-4.5L4.5 0 0 4.5-4.5 0z")
    return _centred(capsule) + pinned(axis(value), diamond)


def passed(axis: Axis, value: float, low: float, high: float) -> str:
    """What remains lies above: the arrow points to the right."""
    place = axis(value)
    head = element("path", cls="tst-t", d="M1-6l13 6-13 6z")
    return _tail(place + 3, min(place + ARROW_SPAN, 100)) + pinned(place, _POST + head)


def failed(axis: Axis, value: float, low: float, high: float) -> str:
    """What remains lies below: the arrow points to the left."""
    place = axis(value)
    head = element("path", cls="tst-t", d="M-1-6l-13 6 13 6z")
    return _tail(max(place - ARROW_SPAN, 0), place - 3) + pinned(place, _POST + head)


_POST = element("path", cls="tst-l", d="M0-12V12")


def _tail(start: float, end: float) -> str:
    if end <= start:
        return ""
    return element("line", cls="tst-d", x1=percent(start), x2=percent(end), y1="50%", y2="50%")


def _centred(contents: str) -> str:
    """Contents whose y is measured from the middle of the row."""
    return element("svg", contents, y="50%", height="1")


def _stroke(cls: str, share: float, half: int) -> str:
    x = percent(share)
    return element("line", cls=cls, x1=x, x2=x, y1=-half, y2=half)


GLYPHS = {"limit": limit, "practice": practice, "passed": passed, "failed": failed}
