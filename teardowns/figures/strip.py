"""One unit's claim against its capability, as the thin drawing of a list row.

All rows share one axis, so that a list can be compared by eye. The numbers stand beside the
drawing as text, so it is decoration to a screen reader.
"""
from .axes import Axis, grid, tick_labels, upright
from .markup import element, percent, picture

AXIS = Axis(2.0, 250.0, (5, 10, 20, 50, 100), logarithmic=True)       # W
NOTHING_KNOWN = element("line", cls="unm", x1=0, x2="100%", y1="50%", y2="50%")


def strip(
    claimed: float | None, low: float | None, median: float | None, high: float | None
) -> str:
    """The claim as a line, the 90 % interval as a bar, its median as a ring; all in W, None where
    not known. A value beyond the axis stands at its end."""
    claim = "" if claimed is None else upright("claim", AXIS(claimed))
    return picture(grid(AXIS) + _capability(low, median, high) + claim)


def strip_axis() -> str:
    """The numbers of the axis, for the head of the column."""
    return picture(tick_labels(AXIS))


def _capability(low, median, high) -> str:
    if low is None or median is None or high is None:
        return NOTHING_KNOWN
    ends = {"x1": percent(AXIS(low)), "x2": percent(AXIS(high)), "y1": "50%", "y2": "50%"}
    ring = element("circle", cls="med", cx=percent(AXIS(median)), cy="50%", r=4)
    return element("line", cls="cap", **ends) + ring
