"""Boxes and items of a picture in an ISO base media file, as AVIF and HEIC are; nothing is decoded.

ISO/IEC 14496-12 (boxes) and 23008-12 (items and their properties).
"""
from dataclasses import dataclass, field

from teardowns.imaging.limits import MAX_METADATA
from teardowns.imaging.refusals import (
    animated,
    check_pixels,
    corrupt,
    too_complex,
    too_much_metadata,
)

from . import exif
from .found import Source, in_order

CUT_OFF = "it was cut off before its end"
PICTURES = (b"av01", b"hvc1", b"grid", b"iovl", b"iden", b"tmap")
Property = tuple[bytes, int, int]    # four letters, start and length of its content


@dataclass
class _Items:
    primary: int | None = None
    kinds: dict = field(default_factory=dict)        # item → four letters
    places: dict = field(default_factory=dict)       # item → [(method, offset, length)]
    properties: list = field(default_factory=list)   # [(kind, start, length)]
    of_item: dict = field(default_factory=dict)      # item → numbers of its properties
    data: int = 0                                    # where the box for short items begins
    data_length: int = 0
    previews: bool = False


class _Cursor:
    """Numbers one after another out of a few bytes."""

    def __init__(self, data):
        self.data, self.at = data, 0

    def take(self, length):
        if self.at + length > len(self.data):
            raise corrupt("one of its tables is too short")
        self.at += length
        return int.from_bytes(self.data[self.at - length:self.at], "big")


@dataclass(frozen=True)
class Still:
    """The one picture that the file is about."""

    kind: bytes                      # four letters of its coding
    width: int                       # px, as coded
    height: int
    properties: tuple[Property, ...]         # its own, in the order in which they apply
    words: tuple[str, ...]           # what is inside beside it, in words for people
    others: tuple[tuple[int, int], ...]      # (offset, length) of what holds no pixels


def walk(source: Source) -> Still:
    """Raises Refused for what is no whole still picture within the limits."""
    items, words, beside = None, [], []
    for kind, start, length in _boxes(source, 0, source.size):
        if kind in (b"moov", b"moof"):
            raise animated()
        if kind == b"meta":
            if items:
                raise corrupt("it has two headers")
            items = _meta(source, start, length)
        elif kind in (b"uuid", b"udta", b"skip", b"free") and length:
            words.append("other data beside the picture")
            beside.append((start, length))
    if items is None:
        raise corrupt("its header is missing")
    return _still(source, items, words, beside)


def _boxes(source, at, end):
    """Every box between two offsets, as (kind, start of its content, length of its content)."""
    while at < end:
        source.spend(1)
        length, kind, head = source.number(at, 4), source.read(at + 4, 4), 8
        if length == 1:
            length, head = source.number(at + 8, 8), 16
        elif length == 0:
            length = end - at
        if length < head or at + length > end:
            raise corrupt(CUT_OFF)
        yield kind, at + head, length - head
        at += length


def _meta(source, start, length):
    items = _Items()
    if length > MAX_METADATA:
        raise too_much_metadata(f"more than {MAX_METADATA >> 20} MB")
    readers = {b"pitm": _primary, b"iinf": _kinds, b"iloc": _places, b"iprp": _properties}
    for kind, at, size in _boxes(source, start + 4, start + length):
        if kind in readers:
            readers[kind](source, at, size, items)
        elif kind == b"idat":
            items.data, items.data_length = at, size
        elif kind == b"iref":
            items.previews = any(k == b"thmb" for k, _, _ in _boxes(source, at + 4, at + size))
    return items


def _table(source, at, size):
    cursor = _Cursor(source.read(at, size))
    return cursor, cursor.take(1), cursor.take(3)          # version, flags


def _times(source, number):
    source.spend(number)
    return range(number)


def _primary(source, at, size, items):
    cursor, version, _ = _table(source, at, size)
    items.primary = cursor.take(4 if version else 2)


def _kinds(source, at, size, items):
    cursor, version, _ = _table(source, at, size)
    cursor.take(4 if version else 2)
    for kind, start, length in _boxes(source, at + cursor.at, at + size):
        if kind == b"infe" and length >= 12:
            entry, version, _ = _table(source, start, length)
            number = entry.take(4 if version == 3 else 2)
            entry.take(2)
            items.kinds[number] = entry.take(4).to_bytes(4, "big")


def _places(source, at, size, items):
    cursor, version, _ = _table(source, at, size)
    sizes = cursor.take(2)
    offset_size, length_size, base_size, index_size = (sizes >> s & 15 for s in (12, 8, 4, 0))
    total = 0
    for _ in _times(source, cursor.take(4 if version == 2 else 2)):
        item = cursor.take(4 if version == 2 else 2)
        method = cursor.take(2) & 15 if version else 0
        cursor.take(2)
        base = cursor.take(base_size)
        places = []
        for _ in _times(source, cursor.take(2)):
            cursor.take(index_size if version else 0)
            offset, length = base + cursor.take(offset_size), cursor.take(length_size)
            places.append((method, offset, length))
            total += length
        items.places[item] = places
    if total > source.size:
        raise too_complex("the same bytes are used for several items")


def _properties(source, at, size, items):
    for kind, start, length in _boxes(source, at, at + size):
        if kind == b"ipco":
            items.properties = list(_boxes(source, start, start + length))
        elif kind == b"ipma":
            _associations(source, start, length, items)


def _associations(source, at, size, items):
    cursor, version, flags = _table(source, at, size)
    wide = flags & 1
    for _ in _times(source, cursor.take(4)):
        item = cursor.take(4 if version else 2)
        numbers = [cursor.take(2) & 0x7FFF if wide else cursor.take(1) & 0x7F
                   for _ in _times(source, cursor.take(1))]
        items.of_item.setdefault(item, numbers)


def _still(source, items, words, beside):
    _check_places(source, items)
    own = tuple(items.properties[n - 1] for n in items.of_item.get(items.primary, ())
                if 1 <= n <= len(items.properties))
    width, height = _size(source, own)
    for kind, start, length in items.properties:
        if kind == b"ispe" and length >= 12:      # of tiles, previews and transparency too
            check_pixels(source.number(start + 4, 4), source.number(start + 8, 4))
    words += _words(source, items, own)
    return Still(items.kinds.get(items.primary, b""), width, height, own, in_order(words),
                 (*beside, *_without_pixels(items)))


def _without_pixels(items):
    """Where items lie that are neither a picture nor what one is put together from."""
    for item, places in items.places.items():
        if items.kinds.get(item) not in PICTURES:
            for method, offset, length in places:
                yield offset + (items.data if method else 0), length


def _check_places(source, items):
    for places in items.places.values():
        for method, offset, length in places:
            end = items.data_length if method == 1 else source.size
            if method > 1 or offset + length > end:
                raise corrupt(CUT_OFF)
    if not items.places.get(items.primary):
        raise corrupt("it holds no pixels")


def _size(source, own):
    for kind, start, length in own:
        if kind == b"ispe" and length >= 12:
            return source.number(start + 4, 4), source.number(start + 8, 4)
    raise corrupt("its size is missing")


def _words(source, items, own):
    words = ["preview picture"] if items.previews else []
    if any(kind == b"colr" and source.read(start, min(length, 4)) in (b"prof", b"rICC")
           for kind, start, length in own):
        words.append("colour profile")
    for item, kind in items.kinds.items():
        if kind == b"Exif":
            # Four bytes in front say how far the TIFF header lies behind them.
            data = _content(source, items, item)
            words += exif.look(data[4 + int.from_bytes(data[:4], "big"):])[1]
        elif kind == b"mime":
            words += exif.words_in_xmp(_content(source, items, item))
    return words


def _content(source, items, item):
    places = items.places.get(item, ())
    if sum(length for _, _, length in places) > MAX_METADATA:
        raise too_much_metadata(f"more than {MAX_METADATA >> 20} MB")
    return b"".join(source.read(offset + (items.data if method else 0), length)
                    for method, offset, length in places)
