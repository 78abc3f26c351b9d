"""AVIF (AV1 Image File Format 1.1): a still picture among boxes and items, not decoded."""
from teardowns.imaging.refusals import corrupt

from . import items
from .found import Found, Source

# (turns of 90° against the clock, mirror) → EXIF orientation; mirror 0 swaps top and bottom,
# 1 left and right (23008-12, 6.5.10 and 6.5.12), applied after the turn.
ORIENTATIONS = {
    (0, None): 1, (1, None): 8, (2, None): 3, (3, None): 6,
    (0, 0): 4, (0, 1): 2, (1, 0): 5, (1, 1): 7, (2, 0): 2, (2, 1): 4, (3, 0): 7, (3, 1): 5,
}


def walk(source: Source) -> Found:
    still = items.walk(source)
    if still.kind not in (b"av01", b"grid"):
        raise corrupt("it holds no AV1 picture")
    return Found(still.width, still.height, _orientation(source, still.properties), still.words,
                 ((0, source.size),))


def _orientation(source, own):
    turns, mirror = 0, None
    for kind, start, length in own:
        if kind == b"irot" and length:
            turns = source.number(start, 1) & 3
        elif kind == b"imir" and length:
            mirror = source.number(start, 1) & 1
    return ORIENTATIONS[turns, mirror]
