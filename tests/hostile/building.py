"""Pieces from which hostile files are put together, byte by byte where an encoder would refuse."""
import io
import struct
import zlib
from dataclasses import dataclass

from PIL import Image

RED, GREEN, BLUE, PALE = (200, 30, 30), (30, 200, 30), (30, 30, 200), (240, 240, 240)
SIZE = (96, 64)
CANARY = b"CANARY-7f3a"
PNG_MAGIC = b"\x89PNG\r\n\x1a\n"
ACCEPTED = "accepted"
REFUSED = frozenset({"corrupt_image", "unknown_type", "unsupported_type", "too_many_pixels",
                     "too_complex", "too_much_metadata", "animated", "decode_failed"})
EITHER = REFUSED | {ACCEPTED}


@dataclass(frozen=True)
class Case:
    name: str
    data: bytes
    verdicts: frozenset                  # ACCEPTED and the codes of Refused that will do
    corners: tuple | None = None         # colours of the four quarters as shown, where certain
    size: tuple | None = None            # as shown
    says: tuple = ()                     # words that the contributor must be told


def refused(name, data, *codes):
    return Case(name, data, frozenset(codes))


def accepted(name, data, corners=(RED, GREEN, BLUE, PALE), size=SIZE, says=()):
    return Case(name, data, frozenset({ACCEPTED}), corners, size, says)


def control(size=SIZE):
    """Red and green above blue and pale: any turn, mirror or mixed-up channel shows."""
    picture, (w, h) = Image.new("RGB", size, RED), size
    picture.paste(GREEN, (w // 2, 0, w, h // 2))
    picture.paste(BLUE, (0, h // 2, w // 2, h))
    picture.paste(PALE, (w // 2, h // 2, w, h))
    return picture


def saved(format, picture=None, **options):
    out = io.BytesIO()
    options.setdefault("quality", 92)
    (picture or control()).save(out, format, **options)
    return out.getvalue()


def chunk(kind, data=b""):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def header(width, height, depth=8, colour=2, packing=0, filtering=0, interlace=0):
    return chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, depth, colour, packing, filtering,
                                      interlace))


def png_of(*chunks):
    return PNG_MAGIC + b"".join(chunks)


def pixels_of(picture=None):
    """The unfiltered rows of an RGB picture, deflated."""
    picture = picture or control()
    raw, step = picture.tobytes(), picture.width * 3
    rows = b"".join(b"\0" + raw[at:at + step] for at in range(0, len(raw), step))
    return chunk(b"IDAT", zlib.compress(rows))


def png_with(*extra, after=b""):
    """The control as PNG with chunks between header and pixels, and bytes behind its end."""
    return png_of(header(*SIZE), *extra, pixels_of(), chunk(b"IEND")) + after


def segment(marker, data=b""):
    return bytes([0xFF, marker]) + struct.pack(">H", len(data) + 2) + data


def jpeg_with(*segments, after=b"", **options):
    """The control as JPEG with segments behind its first marker, and bytes behind its end."""
    whole = saved("JPEG", **options)
    return whole[:2] + b"".join(segments) + whole[2:] + after


def riff(*chunks):
    body = b"WEBP" + b"".join(chunks)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def piece(kind, data):
    return kind + struct.pack("<I", len(data)) + data + b"\0" * (len(data) & 1)


def canvas(width, height, flags=0):
    return piece(b"VP8X", struct.pack("<I", flags) + (width - 1).to_bytes(3, "little")
                 + (height - 1).to_bytes(3, "little"))


def webp_with(*chunks, flags=0, after=b""):
    """The control as WebP with chunks behind its picture, and bytes behind its end."""
    return riff(canvas(*SIZE, flags), saved("WEBP")[12:], *chunks) + after


def box(kind, data=b""):
    return struct.pack(">I", len(data) + 8) + kind + data


def exif(*tags, order=">", next_at=None, gps=()):
    """A TIFF block: tags are (number, text or int); gps tags go into a directory of their own."""
    tags = list(tags)
    head = b"MM\0*" if order == ">" else b"II*\0"
    count = len(tags) + bool(gps)
    after = 8 + 2 + 12 * count + 4
    entries, heap = [], b""
    for number, value in tags:
        if isinstance(value, int):
            entries.append(struct.pack(order + "HHIHH", number, 3, 1, value, 0))
        else:
            entries.append(struct.pack(order + "HHII", number, 2, len(value), after + len(heap)))
            heap += value
    if gps:
        entries.append(struct.pack(order + "HHII", 0x8825, 4, 1, after + len(heap)))
        heap += _gps(gps, order, after + len(heap))
    following = after + len(heap) if next_at == "here" else next_at or 0
    return (head + struct.pack(order + "IH", 8, count) + b"".join(entries)
            + struct.pack(order + "I", following) + heap)


def _gps(texts, order, at):
    heap_at = at + 2 + 12 * len(texts) + 4
    entries, heap = b"", b""
    for number, text in texts:
        entries += struct.pack(order + "HHII", number, 2, len(text), heap_at + len(heap))
        heap += text
    return struct.pack(order + "H", len(texts)) + entries + b"\0\0\0\0" + heap


def in_jpeg(block):
    return jpeg_with(segment(0xE1, b"Exif\0\0" + block))


def in_png(block):
    return png_with(chunk(b"eXIf", block))


def in_webp(block):
    return webp_with(piece(b"EXIF", block), flags=8)


def in_avif(block):
    return saved("AVIF", exif=block)


EXIF_INTO = {"jpeg": in_jpeg, "png": in_png, "webp": in_webp, "avif": in_avif}


def xmp_into(kind, packet):
    return {
        "jpeg": lambda: jpeg_with(segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0" + packet)),
        "png": lambda: png_with(chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0" + packet)),
        "webp": lambda: webp_with(piece(b"XMP ", packet), flags=4),
        "avif": lambda: saved("AVIF", xmp=packet),
    }[kind]()
