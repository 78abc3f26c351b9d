"""Files that were cut, bent or put together wrongly: refused, never shown half grey."""
import random
import struct
import zlib

from .building import (
    ACCEPTED,
    EITHER,
    REFUSED,
    SIZE,
    Case,
    canvas,
    chunk,
    header,
    piece,
    pixels_of,
    png_of,
    png_with,
    refused,
    riff,
    saved,
    segment,
)
from .floods import lossless_head, lossy_head, resized_avif, resized_jpeg

BAD = "corrupt_image"
END = chunk(b"IEND")
KINDS = ("JPEG", "PNG", "WEBP", "AVIF")


def cases():
    yield refused("empty", b"", "empty_file")
    yield from cut()
    yield from bits()
    yield from jpegs()
    yield from pngs()
    yield from webps()
    yield from avifs()


def cut():
    magic = {"JPEG": b"\xff\xd8\xff", "PNG": b"\x89PNG\r\n\x1a\n", "WEBP": b"RIFF\x20\0\0\0WEBP",
             "AVIF": b"\0\0\0\x14ftypavif\0\0\0\0avif"}
    for kind in KINDS:
        yield refused(f"{kind}-magic-only".lower(), magic[kind], BAD)
        whole = saved(kind)
        for percent in (10, 25, 50, 75, 95):
            yield Case(f"{kind}-{percent}-percent".lower(), whole[:len(whole) * percent // 100],
                       REFUSED)
        yield Case(f"{kind}-last-byte-missing".lower(), whole[:-1], REFUSED)


def bits():
    """Single bits turned over. A checksum finds each in a PNG; elsewhere some change pixels."""
    for kind in KINDS:
        whole, draw = saved(kind), random.Random(5)
        for n in range(24 if kind in ("JPEG", "PNG") else 12):
            data = bytearray(whole)
            data[draw.randrange(len(data))] ^= 1 << draw.randrange(8)
            yield Case(f"{kind}-bit-{n}".lower(), bytes(data), REFUSED if kind == "PNG" else EITHER)


def jpegs():
    whole = saved("JPEG")
    frame, tables = whole.index(b"\xff\xc0"), whole.index(b"\xff\xdb")
    scan = whole.index(b"\xff\xda")
    half = whole[:(scan + len(whole)) // 2]
    yield refused("jpeg-half-then-end", half + b"\xff\xd9", BAD)
    yield refused("jpeg-quarter-then-end", whole[:scan + 40] + b"\xff\xd9", BAD)
    fine = saved("JPEG", progressive=True)
    first, last = fine.index(b"\xff\xda") + 20, fine.rindex(b"\xff\xda")
    for name, cut in {"first": first, "last": last}.items():
        yield refused(f"jpeg-progressive-{name}-pass-then-end", fine[:cut] + b"\xff\xd9", BAD)
    yield refused("jpeg-no-end", whole[:-2], BAD)
    yield refused("jpeg-two-headers", whole[:frame] + whole[frame:frame + 19] * 2
                  + whole[frame + 19:], BAD)
    yield refused("jpeg-picture-in-picture", whole[:2] + whole, BAD)
    yield refused("jpeg-no-header", whole[:frame] + whole[frame + 19:], BAD)
    yield refused("jpeg-no-scan", whole[:scan] + b"\xff\xd9", BAD)
    yield refused("jpeg-no-tables", whole[:tables] + whole[frame:], BAD)
    yield refused("jpeg-empty-scan", whole[:scan + 14] + b"\xff\xd9", BAD)
    yield refused("jpeg-width-0", resized_jpeg(0, 64), BAD)
    yield refused("jpeg-height-0", resized_jpeg(96, 0), BAD)
    yield refused("jpeg-taller-than-its-data", resized_jpeg(96, 640), BAD)
    for length in (0, 1, 60_000):
        yield refused(f"jpeg-segment-{length}", whole[:2] + b"\xff\xe1" + struct.pack(">H", length)
                      + whole[2:], BAD)
    yield refused("jpeg-rubbish-between", whole[:20] + b"rubbish" + whole[20:], BAD)
    yield refused("jpeg-stray-restart", whole[:2] + b"\xff\xd0" + whole[2:], BAD)
    yield refused("jpeg-2-colours", whole.replace(b"\0\x40\0\x60\3", b"\0\x40\0\x60\2"), BAD)
    yield refused("jpeg-sampling-0", whole.replace(b"\3\1\x22\0", b"\3\1\0\0"), BAD)
    yield refused("jpeg-only-comments", b"\xff\xd8" + segment(0xFE, b"a") + b"\xff\xd9", BAD)


def pngs():
    whole, head, data = png_with(), header(*SIZE), pixels_of()
    for kind in (b"IHDR", b"IDAT", b"IEND"):
        at = whole.index(kind)
        length = struct.unpack(">I", whole[at - 4:at])[0]
        end = at + 4 + length
        yield refused(f"png-checksum-{kind.decode()}",
                      whole[:end] + bytes([whole[end] ^ 1]) + whole[end + 1:], BAD)
    packed = zlib.compress(b"\0" * (SIZE[1] * (1 + 3 * SIZE[0])))
    yield refused("png-few-rows", png_of(
        head, chunk(b"IDAT", zlib.compress(b"\0" * 600)), END), BAD)
    yield refused("png-not-deflated", png_of(head, chunk(b"IDAT", b"not deflated"), END), BAD)
    yield refused("png-inner-cut", png_of(
        head, chunk(b"IDAT", packed[:len(packed) // 2]), END), BAD)
    yield refused("png-filter-9", png_of(head, chunk(b"IDAT", zlib.compress(
        b"\x09" * (SIZE[1] * (1 + 3 * SIZE[0])))), END), BAD)
    wrong = {"two-headers": (head, head, data, END), "no-header": (data, END),
             "header-late": (chunk(b"tEXt", b"a\0b"), head, data, END), "no-pixels": (head, END),
             "no-end": (head, data), "no-palette": (header(*SIZE, colour=3), data, END),
             "palette-of-4": (header(*SIZE, colour=3), chunk(b"PLTE", b"1234"), data, END),
             "two-palettes": (head, chunk(b"PLTE", b"123") * 2, data, END),
             "data-apart": (head, data, chunk(b"tEXt", b"a\0b"), data, END),
             "unknown-needed": (head, chunk(b"NEED"), data, END),
             "name-of-digits": (head, chunk(b"1234"), data, END),
             "depth-3": (header(*SIZE, 3), data, END), "colour-5": (header(*SIZE, 8, 5), data, END),
             "packing-1": (header(*SIZE, packing=1), data, END),
             "filtering-1": (header(*SIZE, filtering=1), data, END),
             "interlace-2": (header(*SIZE, interlace=2), data, END),
             "width-0": (header(0, 64), data, END), "height-0": (header(96, 0), data, END),
             "header-of-12": (chunk(b"IHDR", b"\0" * 12), data, END)}
    for name, chunks in wrong.items():
        yield refused(f"png-{name}", png_of(*chunks), BAD)
    for length in (2**31, 2**32 - 1):
        yield refused(f"png-chunk-{length}", png_of(head, struct.pack(">I", length) + b"IDAT",
                                                    data, END), BAD)


def webps():
    inner = saved("WEBP")[12:]
    lossless = saved("WEBP", lossless=True)[12:]
    wrong = {"canvas-differs": (canvas(97, 64), inner),
             "two-pictures": (canvas(*SIZE), inner, inner), "no-picture": (canvas(*SIZE),),
             "start-code": (inner.replace(b"\x9d\1\x2a", b"\x9d\1\x2b"),),
             "canvas-late": (inner, canvas(*SIZE)),
             "alpha-late": (canvas(*SIZE, 16), inner, piece(b"ALPH", b"\0" * 40)),
             "signature": (lossless.replace(b"\x2f", b"\x2e", 1),),
             "only-heads": (piece(b"VP8 ", lossy_head(*SIZE)),),
             "width-0": (piece(b"VP8 ", lossy_head(0, 64)),),
             "lossless-noise": (piece(b"VP8L", lossless_head(*SIZE)[:5] + b"\xa5" * 30),)}
    for name, chunks in wrong.items():
        yield refused(f"webp-{name}", riff(*chunks), BAD)
    whole = saved("WEBP")
    yield refused("webp-size-too-large", whole[:4] + struct.pack("<I", len(whole)) + whole[8:], BAD)
    yield refused("webp-size-0", whole[:4] + b"\0\0\0\0" + whole[8:], BAD)
    yield refused("webp-chunk-too-long", riff(inner[:4] + b"\xff\xff\xff\x7f" + inner[8:]), BAD)


def avifs():
    whole = saved("AVIF")
    yield refused("avif-width-0", resized_avif(0, 64), BAD)
    yield Case("avif-other-size", resized_avif(48, 64), frozenset({BAD, ACCEPTED}))
    yield refused("avif-no-picture", whole[:whole.index(b"mdat") - 4], BAD)
    for name, old, new in (("no-meta", b"meta", b"free"), ("no-size", b"ispe", b"free"),
                           ("no-primary", b"pitm", b"free"), ("no-places", b"iloc", b"free"),
                           ("no-kinds", b"iinf", b"free"), ("other-codec", b"av01", b"hvc1")):
        yield refused(f"avif-{name}", whole.replace(old, new), BAD)
    at = whole.index(b"mdat") + 4
    yield refused("avif-noise", whole[:at] + b"\xa5" * (len(whole) - at), BAD)
    yield refused("avif-box-of-4", whole[:at - 8] + b"\0\0\0\4free" + whole[at - 8:], BAD)
