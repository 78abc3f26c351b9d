"""WebP (RFC 9649): RIFF chunks and the header of the one frame, without decoding."""
from dataclasses import dataclass, field

from teardowns.imaging.limits import MAX_METADATA, MAX_PARTS
from teardowns.imaging.refusals import animated, check_pixels, corrupt, too_much_metadata

from . import exif
from .found import Found, Source, in_order, joined

ALPHA_FLAG = 0x10
MOVING_FLAG = 0x02
CUT_OFF = "it was cut off before its end"


@dataclass
class _State:
    canvas: tuple[int, int] | None = None
    frame: tuple[int, int] | None = None
    flags: int = 0
    parts: int = 0
    metadata: int = 0
    orientation: int = 0             # 0: no EXIF seen yet; a second block counts for nothing
    words: list = field(default_factory=list)
    pieces: list = field(default_factory=list)
    profile: tuple = ()


def walk(source: Source) -> Found:
    state = _State()
    end = 8 + source.number(4, 4, "little")
    if end > source.size or end < 20:
        raise corrupt(CUT_OFF)
    at = 12
    while at < end:
        if at + 8 > end:
            raise corrupt(CUT_OFF)
        kind, length = source.read(at, 4), source.number(at + 4, 4, "little")
        if at + 8 + length > end:
            raise corrupt(CUT_OFF)
        _judge(source, at, length, kind, state, first=at == 12)
        at += 8 + length + (length & 1)
    if end < source.size:
        state.words.append("data after the end of the picture")
    return _found(state)


def _judge(source, at, length, kind, state, first):
    if kind in (b"ANIM", b"ANMF"):
        raise animated()
    if kind == b"VP8X":
        return _extended(source, at + 8, length, state, first)
    if kind in (b"VP8 ", b"VP8L"):
        return _frame(source, at, length, kind, state)
    if kind == b"ALPH":
        if state.frame or length < 1:
            raise corrupt("its transparency stands behind the picture")
        return state.pieces.append(_padded(source, at, length))
    return _extra(source, at + 8, length, kind, state)


def _extended(source, at, length, state, first):
    if not first or length != 10:
        raise corrupt("its header is missing or stands there twice")
    data = source.read(at, 10)
    state.flags = data[0]
    if state.flags & MOVING_FLAG:
        raise animated()
    state.canvas = (1 + int.from_bytes(data[4:7], "little"), 1 + int.from_bytes(data[7:], "little"))
    check_pixels(*state.canvas)


def _frame(source, at, length, kind, state):
    if state.frame:
        raise corrupt("it has two headers")
    head = source.read(at + 8, min(length, 10))
    state.frame = _lossy_size(head) if kind == b"VP8 " else _lossless_size(head)
    check_pixels(*state.frame)
    state.pieces.append(_padded(source, at, length))


def _lossy_size(head):
    """RFC 6386, 9.1: three bytes of tag, start code 9D 01 2A, then 14 bit each."""
    if len(head) < 10 or head[0] & 1 or head[3:6] != b"\x9d\x01\x2a":
        raise corrupt("the header of its pixels makes no sense")
    return (int.from_bytes(head[6:8], "little") & 0x3FFF,
            int.from_bytes(head[8:10], "little") & 0x3FFF)


def _lossless_size(head):
    """RFC 9649, 3.4: signature 2F, then 14 bit each less one."""
    if len(head) < 5 or head[0] != 0x2F:
        raise corrupt("the header of its pixels makes no sense")
    bits = int.from_bytes(head[1:5], "little")
    return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)


def _extra(source, at, length, kind, state):
    state.parts += 1
    state.metadata += length
    if state.parts > MAX_PARTS or state.metadata > MAX_METADATA:
        raise too_much_metadata(f"more than {MAX_PARTS} parts or {MAX_METADATA >> 20} MB")
    if kind == b"EXIF" and not state.orientation:
        data = source.read(at, length)
        state.orientation, words = exif.look(data.removeprefix(b"Exif\x00\x00"))
        state.words += words
    elif kind == b"XMP ":
        state.words += exif.words_in_xmp(source.read(at, length))
    elif kind == b"ICCP":
        state.words.append("colour profile")
        state.profile = state.profile or ((at, length),)
    else:
        state.words.append("other data beside the picture")


def _padded(source, at, length):
    """The chunk with its padding byte, if the file has one at all."""
    return (at, min(8 + length + (length & 1), source.size - at))


def _found(state):
    if state.frame is None:
        raise corrupt("it holds no pixels")
    if state.canvas and state.canvas != state.frame:
        raise corrupt("its two headers name different sizes")
    width, height = state.frame
    head = _header(state, width, height)
    return Found(width, height, state.orientation or 1, in_order(state.words),
                 joined([*head, *state.pieces]), state.profile)


def _header(state, width, height):
    """A header for the pixels alone: no flag promises metadata that is no longer there."""
    extended = b""
    if state.canvas:
        flags = bytes([state.flags & ALPHA_FLAG, 0, 0, 0])
        sides = (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
        extended = b"VP8X" + (10).to_bytes(4, "little") + flags + sides
    size = 4 + len(extended) + sum(length for _, length in state.pieces)
    return [b"RIFF" + size.to_bytes(4, "little") + b"WEBP" + extended]
