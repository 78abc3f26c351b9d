"""The way along a board round a slot through it.

IEC 62368-1:2018, annex O: a path cannot cross a slot that is wide enough to count.
"""
import heapq

import numpy as np

NEAR = 1e-9                   # m: what is closer touches


def round_slot(start, end, slot, narrowest: float, open_corners: tuple[int, ...] = ()
               ) -> np.ndarray:
    """(n, 2) The shortest way from conductor to conductor that keeps out of a slot. [m]

    start, end : (2,) float, the conductors; slot : (m, 2) float, its corners in turn [m]
    narrowest : X; a slot narrower than that is crossed [m]
    open_corners : which corners, from 0, lie on the board's edge: no way leads past them
    """
    start, end, slot = (np.asarray(v, float) for v in (start, end, slot))
    if any(_inside(point, slot) for point in (start, end)):
        raise ValueError("A conductor is marked inside the slot: mark where copper ends beside it.")
    if slot_width(slot) < narrowest:
        return np.array([start, end])
    nodes = [start, end, *(corner for n, corner in enumerate(slot) if n not in open_corners)]
    reached: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, (0,))}
    waiting = [(0.0, 0)]
    while waiting:
        length, here = heapq.heappop(waiting)
        if here == 1:
            return np.array([nodes[n] for n in reached[1][1]])
        for there in range(1, len(nodes)):
            total = length + float(np.hypot(*(nodes[there] - nodes[here])))
            shorter = total < reached.get(there, (np.inf, ()))[0]
            if shorter and _clear(nodes[here], nodes[there], slot):
                reached[there] = (total, (*reached[here][1], there))
                heapq.heappush(waiting, (total, there))
    raise ValueError("No way leads round this slot: both its ends are marked as open to the edge.")


def beside_slot(start, end, first_end, second_end, width: float) -> dict[str, float]:
    """Where both conductors lie seen from a straight slot, as a path round a slot is recorded. [m]

    start, end, first_end, second_end : (2,) float, the conductors and both ends of the slot's
    middle line [m]. x runs across the slot from its middle, negative on the side of `start`; y runs
    along it from the first end.
    """
    start, end, first, second = (np.asarray(v, float) for v in (start, end, first_end, second_end))
    length = float(np.hypot(*(second - first)))
    if not (length > 0.0 and width > 0.0):
        raise ValueError("The slot needs two different ends and a width of more than 0 mm.")
    down = (second - first) / length
    across = np.array([-down[1], down[0]])
    (from_x, from_y), (to_x, to_y) = ((float(v @ across), float(v @ down))
                                      for v in (start - first, end - first))
    side = -1.0 if from_x > 0.0 else 1.0
    if side * from_x > -width / 2.0 or side * to_x < width / 2.0:
        raise ValueError("The slot must lie between the two conductors.")
    return {"from_x": side * from_x, "from_y": from_y, "to_x": side * to_x, "to_y": to_y,
            "width": float(width), "start": 0.0, "end": length}


def slot_width(slot) -> float:
    """The least that the slot measures square to one of its sides. [m]"""
    slot = np.asarray(slot, float)
    sides = np.roll(slot, -1, axis=0) - slot
    normals = np.stack([-sides[:, 1], sides[:, 0]], axis=1) / np.hypot(*sides.T)[:, None]
    return float(np.ptp(slot @ normals.T, axis=0).min())


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
