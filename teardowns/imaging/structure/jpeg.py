"""JPEG (ITU-T T.81): segments, frame header and scans, counted without decoding."""
import re
from dataclasses import dataclass, field

from teardowns.imaging.limits import MAX_FILL, MAX_METADATA, MAX_PARTS, MAX_SCAN_PIXELS, MAX_SCANS
from teardowns.imaging.refusals import (
    Refused,
    check_pixels,
    corrupt,
    too_complex,
    too_much_metadata,
)

from . import exif
from .found import Found, Source, in_order, joined

# Inside the data of a scan, FF 00 is a byte and FF D0 to D7 a restart; any other FF xx ends it.
MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
SOI, EOI, SOS, DQT, DHT, DRI, DNL, COM, APP0 = 0xD8, 0xD9, 0xDA, 0xDB, 0xC4, 0xDD, 0xDC, 0xFE, 0xE0
FRAMES = {0xC0, 0xC1, 0xC2}          # baseline, extended, progressive: 8 bit, Huffman
OTHER_FRAMES = {0xC3, 0xC5, 0xC6, 0xC7, 0xC9, 0xCA, 0xCB, 0xCD, 0xCE, 0xCF}
TABLES = {DQT, DHT, DRI}
MISPLACED = {SOI, DNL, *range(0xD0, 0xD8)}
CUT_OFF = "it was cut off before its end"


@dataclass
class _State:
    size: tuple[int, int] | None = None
    coarse: dict = field(default_factory=dict)       # progressive: colour → frequencies not exact
    scans: int = 0
    parts: int = 0
    metadata: int = 0
    orientation: int = 0             # 0: no EXIF seen yet
    jfif: bool = False
    words: list = field(default_factory=list)
    pieces: list = field(default_factory=list)
    profile: dict = field(default_factory=dict)


def walk(source: Source) -> Found:
    state = _State(pieces=[(0, 2)])
    at = 2
    while True:
        at, marker = _next_marker(source, at)
        if marker == EOI:
            break
        at = _segment(source, at, marker, state)
    width, height = _size_of_whole(state)
    state.pieces.append((at - 2, 2))
    if at < source.size:
        state.words.append("data after the end of the picture")
    return Found(width, height, state.orientation or 1, in_order(state.words),
                 joined(state.pieces), _profile(state))


def _next_marker(source, at):
    """(offset behind the marker, its code); any number of FF may stand before the code."""
    if source.number(at, 1) != 0xFF:
        raise corrupt("there is something between its parts that does not belong there")
    for here in range(at + 1, at + 1 + MAX_FILL):
        if (code := source.number(here, 1)) != 0xFF:
            return here + 1, code
    raise corrupt("there is something between its parts that does not belong there")


def _segment(source, at, marker, state):
    """Judges one segment and gives the offset of what follows it."""
    length = source.number(at, 2)
    if length < 2 or at + length > source.size:
        raise corrupt(CUT_OFF if length >= 2 else "the length of one of its parts is impossible")
    state.parts += 1
    if state.parts > MAX_PARTS:
        raise too_much_metadata(f"more than {MAX_PARTS} parts")
    piece = (at - 2, length + 2)
    if marker in FRAMES or marker in OTHER_FRAMES:
        _frame(source, at, length, marker, state)
        state.pieces.append(piece)
    elif marker in TABLES:
        state.pieces.append(piece)
    elif marker == SOS:
        return _scan(source, at, length, state)
    elif marker == COM or APP0 <= marker <= APP0 + 15:
        _extra(source, at, length, marker, state)
    elif marker in MISPLACED or marker < 0xC0:
        raise corrupt("one picture begins inside another, or a part stands in a wrong place")
    return at + length


def _frame(source, at, length, marker, state):
    if state.size:
        raise corrupt("it has two headers")
    data = source.read(at, length)
    if len(data) < 8:
        raise corrupt("its header is too short")
    if marker in OTHER_FRAMES or data[2] != 8:
        raise Refused("unsupported_type", "The file is a JPEG of a rare kind (lossless, arithmetic "
                      "or 12 bit). Save it as an ordinary JPEG and upload that.")
    height, width = int.from_bytes(data[3:5], "big"), int.from_bytes(data[5:7], "big")
    check_pixels(width, height)
    if data[7] not in (1, 3, 4) or length != 8 + 3 * data[7]:
        raise corrupt("its header names an impossible number of colours")
    samplings = [data[9 + 3 * i] for i in range(data[7])]
    if any(not (1 <= s >> 4 <= 4 and 1 <= s & 15 <= 4) for s in samplings):
        raise corrupt("its header names an impossible sampling")
    state.size = (width, height)
    if marker == 0xC2:
        state.coarse = {data[8 + 3 * i]: set(range(64)) for i in range(data[7])}


def _scan(source, at, length, state):
    if state.size is None:
        raise corrupt("its header is missing")
    state.scans += 1
    width, height = state.size
    if state.scans > MAX_SCANS or state.scans * width * height > MAX_SCAN_PIXELS:
        raise too_complex(f"{state.scans} passes over {width} × {height} pixels or more")
    _refine(source.read(at, length), state)
    end = source.find(MARKER, at + length, 1)
    if end < 0:
        raise corrupt(CUT_OFF)
    if end == at + length:
        raise corrupt("a pass over the picture holds nothing")
    state.pieces.append((at - 2, end - at + 2))
    return end


def _refine(data, state):
    """Which frequencies of which colours are exact after this pass (T.81, G.1.1.1)."""
    count = data[2] if len(data) > 2 else 0
    if len(data) != 6 + 2 * count or not 1 <= count <= 4:
        raise corrupt("the header of a pass over the picture makes no sense")
    first, last, steps = data[-3:]
    if steps & 15 == 0:
        for colour in data[3:3 + 2 * count:2]:
            state.coarse.get(colour, set()).difference_update(range(first, last + 1))


def _extra(source, at, length, marker, state):
    """APPn and comments: told to the contributor; only what colours need is kept."""
    state.metadata += length
    if state.metadata > MAX_METADATA:
        raise too_much_metadata(f"more than {MAX_METADATA >> 20} MB")
    data = source.read(at + 2, length - 2)
    if marker == APP0 and data.startswith(b"JFIF\x00") and len(data) >= 14:
        return _jfif(data, state)
    if marker == APP0 + 14 and data.startswith(b"Adobe") and length >= 14:
        # Says how the colours are coded; its twelve bytes hold nothing private.
        state.pieces.append(b"\xff\xee\x00\x0e" + data[:12])
        return None
    state.words += _words(data, marker, at, state)
    return None


def _jfif(data, state):
    # A decoder takes it as the sign of YCbCr; a fresh one holds no preview and no density.
    if not state.size and not state.jfif:
        state.jfif = True
        state.pieces.append(b"\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00")
    if len(data) > 14:
        state.words.append("preview picture")


def _words(data, marker, at, state):
    if marker == COM:
        return ["comments"]
    if marker == APP0 + 1 and data.startswith(b"Exif\x00"):
        if state.orientation:            # a second block counts for nothing
            return ["camera data"]
        state.orientation, words = exif.look(data[6:])
        return words
    if marker == APP0 + 1 and data.startswith(b"http://ns.adobe.com/"):
        return exif.words_in_xmp(data)
    if marker == APP0 + 2 and data.startswith(b"ICC_PROFILE\x00") and len(data) > 14:
        state.profile.setdefault(data[12], (at + 2 + 14, len(data) - 14))
        return ["colour profile"]
    if marker == APP0 + 2 and data.startswith(b"MPF\x00"):
        return ["further pictures"]
    if marker == APP0 + 13:
        return ["caption and keywords"]
    return ["preview picture"] if data.startswith(b"JFXX\x00") else ["other data of the camera"]


def _profile(state):
    """The pieces of the colour profile in their order; none when one is missing."""
    numbers = sorted(state.profile)
    whole = numbers == list(range(1, len(numbers) + 1))
    return tuple(state.profile[n] for n in numbers) if whole else ()


def _size_of_whole(state):
    if state.size is None or not state.scans:
        raise corrupt("it ends before the picture begins")
    if any(state.coarse.values()):
        raise corrupt("its last passes are missing")
    return state.size
