"""How a path over grooves, slots, floating metal and dirt is measured: IEC 60664-1:2020, 6.8."""
import numpy as np

from .table import Table

NARROWEST = Table(
    "Smallest groove that counts", ("Pollution degree", "X, mm"), ((1, .25), (2, 1.0), (3, 1.5)),
    "IEC 60664-1:2020, 6.8; IEC 62368-1:2018, annex O. Read in a board calculator, the first two "
    "also in a forum's list of measuring rules.", "A")
GROOVES = ("groove", "v_groove")
THIRD = 3e-3               # m: below this clearance a third of it counts where that is less
WIDE_ANGLE = np.radians(80.0)      # a groove that opens wider has no bottom to be bridged


def narrowest_width(pollution, clearance) -> np.ndarray:
    """X, the smallest width of a groove or gap that counts. [m]

    pollution : (m,) float, degree 1 to 3; clearance : (m,) float, the required one [m]
    """
    pollution, clearance = np.broadcast_arrays(np.asarray(pollution, float),
                                               np.asarray(clearance, float))
    found = np.full(pollution.shape, np.nan)
    for degree, width in NARROWEST.rows:
        found = np.where(pollution == degree, width * 1e-3, found)
    return np.where(clearance < THIRD, np.minimum(found, clearance / 3.0), found)


def slot_creepage(from_x, from_y, to_x, to_y, width, start, end, narrowest) -> np.ndarray:
    r"""Shortest way along the board round the nearer end of a slot through it.

    .. math:: \min_{y_e}\ |A - (-w/2, y_e)| + w + |(w/2, y_e) - B|

    Parameters
    ----------
    from_x, from_y, to_x, to_y : (m,) float
        The conductors: x across the slot from its middle, y along it. [m]
    width : (m,) float
        Of the slot. [m]
    start, end : (m,) float
        Where the slot ends, along it; NaN where it leaves the board there. [m]
    narrowest : (m,) float
        Smallest width that counts; a narrower slot is bridged. [m]

    Returns
    -------
    (m,) float
        Creepage; NaN where neither end or another input is known, and where both conductors lie
        on the same side of the slot: one of them was read wrong. [m]

    Errors
    ------
    None: geometry. A way that passes beyond an end of the slot goes straight.

    References
    ----------
    .. [1] IEC 62368-1:2018, annex O: a path cannot cross a slot through the board.
    """
    half = width / 2.0
    near = np.where(from_x <= to_x, from_y, to_y), np.where(from_x <= to_x, to_y, from_y)
    left, right = np.minimum(from_x, to_x), np.maximum(from_x, to_x)

    def around(y, side):
        """Past the corners at y; who lies beyond that end goes to the further corner at once."""
        beyond = [side * (at - y) >= 0 for at in near]
        over, back = left + half, right - half
        way = np.select(
            beyond, [np.hypot(left - half, near[0] - y) + np.hypot(back, near[1] - y),
                     np.hypot(over, near[0] - y) + np.hypot(right + half, near[1] - y)],
            np.hypot(over, near[0] - y) + width + np.hypot(back, near[1] - y))
        return np.where(np.isnan(y), np.inf, way)

    nearer = np.minimum(around(start, -1.0), around(end, 1.0))
    straight = np.hypot(to_x - from_x, to_y - from_y)
    missed = _passes(near, left, right, half, start, end)
    found = np.where((width < narrowest) | missed, straight, nearer)
    wrong = np.isinf(found) | np.isnan(narrowest) | (left > -half) | (right < half)
    return np.where(wrong, np.nan, found)


def _passes(near, left, right, half, start, end):
    """Whether the straight way from one conductor to the other passes an end of the slot."""
    slope = (near[1] - near[0]) / (right - left)
    at_edges = [near[0] + slope * (edge - left) for edge in (-half, half)]
    return (np.minimum(*at_edges) >= end) | (np.maximum(*at_edges) <= start)


def groove_creepage(contour, straight, width, narrowest) -> np.ndarray:
    """Along the contour, or straight across where the groove is too narrow to count. [m]

    NaN where the contour is shorter than the straight way: one of them was read wrong.
    """
    wrong = np.isnan(width) | np.isnan(narrowest) | (straight > contour)
    return np.where(wrong, np.nan, np.where(width < narrowest, straight, contour))


def v_groove_creepage(contour, straight, width, depth, narrowest) -> np.ndarray:
    r"""Along the contour of a V, its bottom cut short by a link of the smallest width that counts.

    .. math:: d - X / \sin(\theta / 2) + X

    contour, straight, width, depth, narrowest : (m,) float [m]; the angle is that of the V
    """
    side = np.hypot(width / 2.0, depth)
    narrow = 2.0 * np.arctan2(width / 2.0, depth) < WIDE_ANGLE
    link = np.where(narrow, narrowest, 0.0)
    # Of both sides, what lies below the link goes: X/2 over half the width, of the side.
    cut = contour - 2.0 * side * (link / width) + link
    wrong = np.isnan(depth) | (straight > contour)
    # The link may lie above the straight way of a shallow groove: never shorter than that.
    cut = np.maximum(cut, straight)
    return np.where(wrong, np.nan, groove_creepage(cut, straight, width, narrowest))


def sum_of_gaps(gaps, narrowest) -> np.ndarray:
    """Beside floating metal, all gaps wide enough to count. [m]

    gaps : list of (m,) float, NaN where there is no further gap; NaN where none is known
    """
    known = np.any([~np.isnan(gap) for gap in gaps], axis=0)
    total = sum(np.where(gap >= narrowest, gap, 0.0) for gap in gaps)
    return np.where(known & ~np.isnan(narrowest), total, np.nan)


def effective(path: dict, is_creepage, narrowest) -> tuple[np.ndarray, np.ndarray]:
    """The length that counts, at the lenient and at the demanding end. [m]

    path : (m,) columns by name of subjects.PATH
    is_creepage : bool, or (m,) bool; air goes straight across grooves and slots
    narrowest : (m,) float, smallest width that counts [m]
    """
    distance, shape = path["distance"], path["shape"]
    groove = groove_creepage(distance, path["straight"], path["width"], narrowest)
    v_groove = v_groove_creepage(distance, path["straight"], path["width"], path["depth"],
                                 narrowest)
    slot = slot_creepage(path["from_x"], path["from_y"], path["to_x"], path["to_y"],
                         path["width"], path["start"], path["end"], narrowest)
    gaps = sum_of_gaps([path["gap_1"], path["gap_2"], path["gap_3"]], narrowest)
    length = np.where(shape == "floating", gaps, distance)
    # What was recorded of a groove follows its contour, and air goes straight across.
    grooved = ~np.asarray(is_creepage) & np.isin(shape, GROOVES)
    length = np.where(grooved, np.fmin(distance, path["straight"]), length)
    for name, way in (("groove", groove), ("v_groove", v_groove), ("slot", slot)):
        length = np.where(is_creepage & (shape == name), way, length)
    length = np.where(np.isnan(distance), np.nan, length)
    size = np.where(np.isnan(path["particle"]), 0.0, path["particle"])
    without = np.maximum(length - size, 0.0)
    # A loose particle may lie elsewhere; where nobody said, it may be loose.
    attached = path["particle_loose"] == 0.0
    return np.where(attached, without, length), without


def with_others(longest, shortest, other_least, other_most) -> tuple[np.ndarray, np.ndarray]:
    """The longest and the shortest that a path may be where others read its place otherwise. [m]

    other_least, other_most : (m,) float, NaN where nobody did [m]
    """
    return (np.where(np.isnan(longest), np.nan, np.fmax(longest, other_most)),
            np.where(np.isnan(shortest), np.nan, np.fmin(shortest, other_least)))


def lengths_at_ends(need, is_creepage: bool, **path) -> tuple[np.ndarray, np.ndarray]:
    """The longest and the shortest that a path may count as, over both pollution degrees. [m]

    need : what barriers.required_distances returns
    path : (m,) columns by name of subjects.PATH
    """
    lenient, demanding = (effective(path, is_creepage, narrowest_width(pollution, air))
                          for pollution, air in zip(need.pollution, need.clearance, strict=True))
    return lenient[0], demanding[1]
