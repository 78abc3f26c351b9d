"""HEIC (ISO/IEC 23008-12, annex B): a still HEVC picture among boxes and items, not decoded."""
from teardowns.imaging.refusals import animated, corrupt

from . import items
from .found import ZEROS, Found, Source

SEQUENCES = {b"hevc", b"hevx", b"hevm", b"hevs", b"msf1"}    # brands of moving pictures


def walk(source: Source) -> Found:
    """Its decoder crops and turns by itself: the size is the one as shown, turned already."""
    if source.read(8, 4) in SEQUENCES:
        raise animated()
    still = items.walk(source)
    if still.kind not in (b"hvc1", b"grid"):
        raise corrupt("it holds no HEVC picture")
    width, height = _as_shown(source, still)
    return Found(width, height, 1, still.words, tuple(_pieces(source.size, still.others)))


def _as_shown(source, still):
    """What applies to the pixels, in the order in which the file says (23008-12, 6.5)."""
    width, height = still.width, still.height
    for kind, start, length in still.properties:
        if kind == b"clap" and length >= 32:
            wide, wide_parts, high, high_parts = (
                source.number(start + at, 4) for at in (0, 4, 8, 12))
            if not (wide_parts and high_parts):
                raise corrupt("it is cropped by a share of nothing")
            width, height = round(wide / wide_parts), round(high / high_parts)
        elif kind == b"irot" and length and source.number(start, 1) & 1:
            width, height = height, width
    return width, height


def _pieces(size, others):
    """The whole file, with zeros where no pixels lie: all else stays where its table says."""
    at = 0
    for offset, length in sorted(others):
        start, end = max(offset, at), offset + length
        if end <= start:
            continue
        if start > at:
            yield at, start - at
        yield ZEROS, end - start
        at = end
    if at < size:
        yield at, size - at
