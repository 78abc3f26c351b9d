"""PNG (ISO/IEC 15948): chunks, their checksums and order, without unpacking anything."""
from dataclasses import dataclass, field
from zlib import crc32

from teardowns.imaging.limits import MAX_DATA_CHUNKS, MAX_METADATA, MAX_PARTS
from teardowns.imaging.refusals import (
    animated,
    check_pixels,
    corrupt,
    too_complex,
    too_much_metadata,
)

from . import exif
from .found import BLOCK, Found, Source, in_order, joined

DEPTHS = {0: {1, 2, 4, 8, 16}, 2: {8, 16}, 3: {1, 2, 4, 8}, 4: {8, 16}, 6: {8, 16}}   # table 11.1
KEPT = {b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND"}
PLAIN = {b"gAMA", b"cHRM", b"sRGB", b"sBIT", b"bKGD", b"hIST", b"pHYs", b"cICP"}   # nothing private
MOVING = {b"acTL", b"fcTL", b"fdAT"}
WORDS = {b"tEXt": "comments", b"zTXt": "comments", b"iTXt": "comments", b"tIME": "date and time",
         b"iCCP": "colour profile", b"eXIf": "camera data", b"sPLT": "suggested palette"}
LONGEST = 2**31 - 1


@dataclass
class _State:
    size: tuple[int, int] | None = None
    colour: int = 0
    data: int = 0                    # chunks of pixel data
    data_ended: bool = False
    palette: bool = False
    parts: int = 0
    metadata: int = 0
    orientation: int = 0             # 0: no EXIF seen yet; a second block counts for nothing
    words: list = field(default_factory=list)
    pieces: list = field(default_factory=list)
    profile: tuple = ()


def walk(source: Source) -> Found:
    state = _State(pieces=[(0, 8)])
    at, kind = 8, b""
    while kind != b"IEND":
        length, kind = source.number(at, 4), source.read(at + 4, 4)
        _check_chunk(source, at, length, kind)
        _judge(source, at + 8, length, kind, state)
        if kind in KEPT:
            state.pieces.append((at, length + 12))
        at += length + 12
    width, height = _size_of_whole(state)
    if at < source.size:
        state.words.append("data after the end of the picture")
    return Found(width, height, state.orientation or 1, in_order(state.words), joined(state.pieces),
                 state.profile, profile_packed=True)


def _check_chunk(source, at, length, kind):
    if not kind.isalpha():
        raise corrupt("one of its parts has no proper name")
    if length > LONGEST or at + length + 12 > source.size:
        raise corrupt("it was cut off before its end")
    check, here, end = 0, at + 4, at + 8 + length
    while here < end:
        check = crc32(source.read(here, min(BLOCK, end - here)), check)
        here += BLOCK
    if check != source.number(end, 4):
        raise corrupt("a checksum does not agree with its data")


def _judge(source, at, length, kind, state):
    if (state.size is None) != (kind == b"IHDR"):
        raise corrupt("its header is missing or stands there twice")
    if kind in MOVING:
        raise animated()
    if kind == b"IHDR":
        return _header(source.read(at, length), state)
    if kind == b"IDAT":
        return _data(state)
    state.data_ended = state.data > 0
    if kind == b"PLTE":
        if state.palette or state.data or length % 3 or not 3 <= length <= 768:
            raise corrupt("its palette is impossible")
        state.palette = True
    elif kind not in KEPT:
        _extra(source, at, length, kind, state)
    return None


def _header(data, state):
    if len(data) != 13:
        raise corrupt("its header is too short or too long")
    width, height = int.from_bytes(data[:4], "big"), int.from_bytes(data[4:8], "big")
    check_pixels(width, height)
    depth, state.colour, packing, filtering, interlace = data[8:]
    if depth not in DEPTHS.get(state.colour, ()) or packing or filtering or interlace > 1:
        raise corrupt("its header names an impossible kind of pixels")
    state.size = (width, height)


def _data(state):
    if state.data_ended:
        raise corrupt("its pixels are not in one piece")
    if state.colour == 3 and not state.palette:
        raise corrupt("its palette is missing")
    state.data += 1
    if state.data > MAX_DATA_CHUNKS:
        raise too_complex(f"more than {MAX_DATA_CHUNKS} parts of pixels")


def _extra(source, at, length, kind, state):
    state.parts += 1
    state.metadata += length
    if kind[0] < 0x60:               # an upper-case first letter: not to be skipped (5.4)
        raise corrupt("it has a part that this reader must understand and does not")
    if state.parts > MAX_PARTS or state.metadata > MAX_METADATA:
        raise too_much_metadata(f"more than {MAX_PARTS} parts or {MAX_METADATA >> 20} MB")
    if kind == b"eXIf" and not state.orientation:
        state.orientation, words = exif.look(source.read(at, length).removeprefix(b"Exif\0\0"))
        state.words += words
    elif kind == b"iTXt" and source.read(at, min(length, 17)) == b"XML:com.adobe.xmp":
        state.words += exif.words_in_xmp(source.read(at, length))
    elif kind not in PLAIN:
        state.words.append(WORDS.get(kind, "other data beside the picture"))
    if kind == b"iCCP" and not state.profile:
        state.profile = _profile(source, at, length)


def _profile(source, at, length):
    """The deflated profile behind its name of 1 to 79 bytes; none where the chunk is malformed."""
    name_end = source.read(at, min(length, 81)).find(b"\x00")
    if name_end < 1 or name_end + 2 >= length:
        return ()
    return ((at + name_end + 2, length - name_end - 2),)


def _size_of_whole(state):
    if not state.data:
        raise corrupt("it holds no pixels")
    return state.size
