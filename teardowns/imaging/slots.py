"""The way along a board round a slot through it.

IEC 62368-1:2018, annex O: a path cannot cross a slot that is wide enough to count.
"""
import heapq

import numpy as np

NEAR = 1e-9                   # m: what is closer touches
MOST_CORNERS = 40
STRAIGHT = np.radians(15.0)   # our assumption: what four clicks on a rectangle may be off


class SlotError(ValueError):
    """A slot that cannot be walked round as it is marked; the message says what to do."""


def round_slot(start, end, slot, narrowest: float, open_corners: tuple[int, ...] = ()
               ) -> np.ndarray:
    """(n, 2) The shortest way from conductor to conductor that keeps out of a slot. [m]

    start, end : (2,) float, the conductors; slot : (m, 2) float, its corners in turn [m]
    narrowest : X; a slot narrower than that is crossed [m]
    open_corners : which corners, from 0, lie on the board's edge: no way leads past them
    """
    corners = np.array([start, *slot, end], float)
    return corners[list(nodes_round_slot(start, end, slot, narrowest, open_corners))]


def nodes_round_slot(start, end, slot, narrowest: float, open_corners: tuple[int, ...] = ()
                     ) -> tuple[int, ...]:
    """Which points the shortest way leads by: 0 is `start`, the corners follow from 1, then `end`.

    As `round_slot`; raises SlotError.
    """
    start, end, slot = (np.asarray(v, float) for v in (start, end, slot))
    _check_slot(slot)
    last = len(slot) + 1
    if any(_inside(point, slot) for point in (start, end)):
        raise SlotError("A conductor is marked inside the slot: mark where copper ends beside it.")
    if slot_width(slot) < narrowest:
        return 0, last
    nodes = {0: start, last: end} | {n + 1: corner for n, corner in enumerate(slot)
                                     if n not in open_corners}
    reached: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, (0,))}
    waiting = [(0.0, 0)]
    while waiting:
        length, here = heapq.heappop(waiting)
        if here == last:
            return reached[last][1]
        for there in nodes:
            total = length + float(np.hypot(*(nodes[there] - nodes[here])))
            shorter = total < reached.get(there, (np.inf, ()))[0]
            if shorter and _clear(nodes[here], nodes[there], slot):
                reached[there] = (total, (*reached[here][1], there))
                heapq.heappush(waiting, (total, there))
    raise SlotError("No way leads round this slot: both its ends are marked as open to the edge.")


def beside_slot(start, end, first_end, second_end, width: float) -> dict[str, float]:
    """Where both conductors lie seen from a straight slot, as a path round a slot is recorded. [m]

    start, end, first_end, second_end : (2,) float, the conductors and both ends of the slot's
    middle line [m]. x runs across the slot from its middle, negative on the side of `start`; y runs
    along it from the first end.
    """
    start, end, first, second = (np.asarray(v, float) for v in (start, end, first_end, second_end))
    length = float(np.hypot(*(second - first)))
    if not (length > 0.0 and width > 0.0):
        raise SlotError("The slot needs two different ends and a width of more than 0 mm.")
    down = (second - first) / length
    across = np.array([-down[1], down[0]])
    (from_x, from_y), (to_x, to_y) = ((float(v @ across), float(v @ down))
                                      for v in (start - first, end - first))
    side = -1.0 if from_x > 0.0 else 1.0
    if side * from_x > -width / 2.0 or side * to_x < width / 2.0:
        raise SlotError("The slot must lie between the two conductors.")
    return {"from_x": side * from_x, "from_y": from_y, "to_x": side * to_x, "to_y": to_y,
            "width": float(width), "start": 0.0, "end": length}


def as_recorded(start, end, slot, open_corners: tuple[int, ...] = ()) -> dict[str, float] | None:
    """What a row of evidence keeps of a straight slot, see `beside_slot`; an open end is left out.

    None for one that is bent, does not lie between the conductors, or is open at half an end: no
    such row says how the way leads round it.
    """
    slot = np.asarray(slot, float)
    if len(slot) != 4 or _bend(slot) > STRAIGHT:
        return None
    sides = np.hypot(*(np.roll(slot, -1, axis=0) - slot).T)
    at = 0 if sides[0] + sides[2] < sides[1] + sides[3] else 1      # the first of the short sides
    ends = [[at, at + 1], [at + 2, (at + 3) % 4]]
    is_open = [[corner in open_corners for corner in end_corners] for end_corners in ends]
    if any(one != other for one, other in is_open):
        return None
    first, second = (slot[pair].mean(axis=0) for pair in ends)
    try:
        found = beside_slot(start, end, first, second, slot_width(slot))
    except SlotError:
        return None
    gone = [name for name, (both, _) in zip(("start", "end"), is_open, strict=True) if both]
    return {name: value for name, value in found.items() if name not in gone}


def slot_width(slot) -> float:
    """The least way across from the middle of a side to the side that it faces. [m]

    0 for a polygon whose sides face nothing, as where they cross.
    """
    slot = np.asarray(slot, float)
    sides = np.roll(slot, -1, axis=0) - slot
    inwards = np.stack([-sides[:, 1], sides[:, 0]], axis=1) / np.hypot(*sides.T)[:, None]
    inwards *= np.sign(_cross(slot, np.roll(slot, -1, axis=0)).sum())
    to_side = slot[None] - (slot + sides / 2.0)[:, None]             # from middle to each start
    with np.errstate(divide="ignore", invalid="ignore"):
        whole = _cross(inwards[:, None], sides[None])
        away = _cross(to_side, sides[None]) / whole
        on = _cross(to_side, inwards[:, None]) / whole
    meets = (whole != 0.0) & (on >= -1e-9) & (on <= 1.0 + 1e-9) & (away > NEAR)
    return float(away[meets].min()) if meets.any() else 0.0


def _check_slot(slot):
    if not 3 <= len(slot) <= MOST_CORNERS:
        raise SlotError(f"A slot has between 3 and {MOST_CORNERS} corners; {len(slot)} given.")
    ends = np.roll(slot, -1, axis=0)
    for n, (a, b) in enumerate(zip(slot, ends, strict=True)):
        others = [m for m in range(len(slot)) if m not in (n - 1, n, n + 1)
                  and (m - n) % len(slot) not in (1, len(slot) - 1)]
        if others and _crosses(a, b, slot[others], ends[others]).any():
            raise SlotError("The sides of the slot cross each other. Go round it: each corner "
                             "next to the one before.")
    if abs(_cross(slot, ends).sum()) < 2.0 * NEAR ** 2:
        raise SlotError("The corners of the slot lie on one line. Mark both its long sides.")


def _bend(slot):
    """By what angle opposite sides of four corners differ at most. [rad]"""
    ways = np.roll(slot, -1, axis=0) - slot
    return max(abs(np.arctan2(_cross(a, -b), a @ -b))
               for a, b in ((ways[0], ways[2]), (ways[1], ways[3])))


def _cross(a, b):
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def _crosses(a, b, starts, ends):
    """Whether a line passes through each of the others."""
    return ((_cross(b - a, starts - a) * _cross(b - a, ends - a) < 0.0)
            & (_cross(ends - starts, a - starts) * _cross(ends - starts, b - starts) < 0.0))


def _clear(a, b, slot):
    """Whether the straight way stays out of the slot; along its side is out."""
    following = np.roll(slot, -1, axis=0)
    way, sides, to_side = b - a, following - slot, slot - a
    with np.errstate(divide="ignore", invalid="ignore"):
        whole = way[0] * sides[:, 1] - way[1] * sides[:, 0]
        at = (to_side[:, 0] * sides[:, 1] - to_side[:, 1] * sides[:, 0]) / whole
        on = (to_side[:, 0] * way[1] - to_side[:, 1] * way[0]) / whole
    meets = at[(whole != 0.0) & (on >= -1e-9) & (on <= 1.0 + 1e-9) & (at > 0.0) & (at < 1.0)]
    stops = np.sort(np.concatenate([[0.0, 1.0], meets]))
    return not any(_inside(a + way * middle, slot) for middle in (stops[:-1] + stops[1:]) / 2.0)


def _inside(point, slot):
    """Whether a point lies in the slot and not on its side: an odd number of sides to its right."""
    start, end = slot, np.roll(slot, -1, axis=0)
    side = end - start
    share = np.clip(np.sum((point - start) * side, axis=1) / np.sum(side ** 2, axis=1), 0.0, 1.0)
    if np.linalg.norm(start + share[:, None] * side - point, axis=1).min() < NEAR:
        return False
    spans = (start[:, 1] > point[1]) != (end[:, 1] > point[1])
    start, side = start[spans], side[spans]
    right = start[:, 0] + (point[1] - start[:, 1]) / side[:, 1] * side[:, 0] > point[0]
    return bool(np.sum(right) % 2)
