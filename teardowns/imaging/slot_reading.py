"""The way round a slot, measured on a picture: how long it is, which way it goes, how surely."""
from dataclasses import dataclass, replace

import numpy as np

from .measuring import Part, Reading, measure, path_length
from .points import Points
from .scales import Scale
from .slots import as_recorded, nodes_round_slot, slot_width


@dataclass(frozen=True)
class Slot:
    corners: Points                              # px, in turn
    open_corners: tuple[int, ...] = ()           # from 0: which lie on the edge of the board


@dataclass(frozen=True)
class SlotReading:
    reading: Reading
    way: Points                                  # px
    straight: float                              # m: across it
    width: float                                 # m
    width_u: float                               # m, k = 1
    counts: bool                                 # it is at least X wide
    is_sure: bool                                # whether the picture decides that, at 95 %
    recorded: dict[str, float] | None            # as a row of evidence keeps it, see `as_recorded`


def measure_round_slot(scale: Scale, ends: Points, slot: Slot, narrowest: float, click_u: float, *,
                       size: tuple[int, int], off_plane: bool = False) -> SlotReading:
    """From conductor to conductor, round a slot of at least X and straight across a narrower one.

    ends : two, px; narrowest : X [m]; click_u, size, off_plane : as in `measuring.measure`

    Errors
    ------
    First order along the way that is the shortest as marked. Where the picture does not decide
    whether the slot is wide enough to count, half of what it lengthens the way is one more share.
    """
    points = np.array([ends[0], *slot.corners, ends[1]], float)
    there = scale.to_metres(points)
    nodes = list(nodes_round_slot(there[0], there[-1], there[1:-1], narrowest, slot.open_corners))

    def measured(chosen, along):
        return measure(scale, chosen, click_u, size=size, off_plane=off_plane, along=along)

    reading = measured(points, lambda each: path_length(each[nodes]))
    width = measured(slot.corners, slot_width)
    straight, counts = float(np.hypot(*(there[-1] - there[0]))), width.value >= narrowest
    is_sure = abs(width.value - narrowest) > 2.0 * width.uncertainty
    if counts and not is_sure and reading.value > straight:
        reading = _less_sure(reading, (reading.value - straight) / 2.0)
    return SlotReading(reading, tuple(map(tuple, points[nodes].tolist())), straight, width.value,
                       width.uncertainty, counts, is_sure,
                       as_recorded(there[0], there[-1], there[1:-1], slot.open_corners))


def _less_sure(reading, share):
    parts = (*reading.budget, Part("Whether the slot counts", share))
    return replace(reading, uncertainty=float(np.hypot(reading.uncertainty, share)),
                   budget=tuple(sorted(parts, key=lambda part: -part.share)))
