"""What a picture must not give away, and metadata that would like to be run; all with canaries."""
import io
import struct
import zlib

from PIL import Image

from .building import (
    CANARY,
    EXIF_INTO,
    accepted,
    box,
    chunk,
    exif,
    jpeg_with,
    piece,
    png_with,
    saved,
    segment,
    webp_with,
    xmp_into,
)

AFTER = "data after the end of the picture"
FORMATS = ("jpeg", "png", "webp", "avif")
ATTACKS = {
    "script": b"<script>alert('" + CANARY + b"')</script>",
    "entities": b'<!DOCTYPE x [<!ENTITY a "' + CANARY + b'"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>',
    "outside": b'<!DOCTYPE x [<!ENTITY o SYSTEM "http://127.0.0.1:9/' + CANARY + b'">]><x>&o;</x>',
    "template": b"{{ 7*7 }}{% include '" + CANARY + b"' %}",
}


def cases():
    yield from in_exif()
    yield from in_xmp()
    yield from beside_jpeg()
    yield from beside_png()
    yield from beside_webp()
    yield from beside_avif()


def in_exif():
    blocks = {
        "position": (exif((0x10F, CANARY), gps=[(1, b"N\0"), (0x1B, CANARY)]), "GPS position"),
        "little-endian": (exif((0x10F, CANARY), order="<", gps=[(0x1D, CANARY)]), "GPS position"),
        "owner": (exif((0xA430, CANARY), (0xA431, CANARY)), "camera serial number"),
        "author": (exif((0x13B, CANARY), (0x8298, CANARY)), "author's name"),
        "comment": (exif((0x10E, CANARY), (0x9286, CANARY)), "comments"),
        "maker": (exif((0x10F, CANARY), (0x927C, CANARY * 500)), "maker's notes"),
        "preview": (with_preview(), "preview picture"),
    }
    for name, (block, says) in blocks.items():
        for kind in FORMATS:
            yield accepted(f"{kind}-exif-{name}", EXIF_INTO[kind](block), says=(says,))
    for name, text in ATTACKS.items():
        for kind in FORMATS:
            yield accepted(f"{kind}-exif-{name}", EXIF_INTO[kind](exif((0x10E, text))),
                           says=("comments",))


def with_preview():
    """A second directory with a JPEG of the uncropped picture."""
    out = io.BytesIO()
    Image.new("RGB", (40, 30), (9, 9, 9)).save(out, "JPEG", comment=CANARY)
    start = exif((0x10F, CANARY), next_at="here")
    tags = struct.pack(">HHHII", 2, 0x201, 4, 1, len(start) + 30)
    tags += struct.pack(">HHIII", 0x202, 4, 1, len(out.getvalue()), 0)
    return start + tags + out.getvalue()


def in_xmp():
    packets = {"position": b"<x exif:GPSLatitude='52,0N'>" + CANARY + b"</x>",
               "serial": b"<x aux:SerialNumber='" + CANARY + b"'/>", "null": b"\0" * 64 + CANARY,
               **ATTACKS}
    says = {"position": "GPS position", "serial": "camera serial number"}
    for name, packet in packets.items():
        for kind in FORMATS:
            yield accepted(f"{kind}-xmp-{name}", xmp_into(kind, packet),
                           says=(says.get(name, "XMP description"),))


def beside_jpeg():
    yield accepted("jpeg-comment", jpeg_with(segment(0xFE, CANARY)), says=("comments",))
    record = b"\x1c\2\x78\0\x0b" + CANARY
    caption = segment(0xED, b"Photoshop 3.0\x008BIM\4\4\0\0\0\0\0\x10" + record)
    yield accepted("jpeg-caption", jpeg_with(caption), says=("caption and keywords",))
    for number in (3, 4, 11, 15):
        yield accepted(f"jpeg-app{number}", jpeg_with(segment(0xE0 + number, CANARY)),
                       says=("other data of the camera",))
    yield accepted("jpeg-jfif-preview", jpeg_with(segment(
        0xE0, b"JFIF\0\1\1\0\0\1\0\1\1\1" + CANARY)), says=("preview picture",))
    yield accepted("jpeg-adobe-tail", jpeg_with(segment(
        0xEE, b"Adobe\0\x64\0\0\0\0\1" + CANARY)))
    clip = box(b"ftyp", b"mp42\0\0\0\0mp42") + box(b"mdat", CANARY * 900)
    for name, tail in {"clip": clip, "zeros": b"\0" * 512, "text": CANARY}.items():
        yield accepted(f"jpeg-then-{name}", jpeg_with(after=tail), says=(AFTER,))


def beside_png():
    packed = zlib.compress(CANARY)
    chunks = {"text": chunk(b"tEXt", b"Comment\0" + CANARY),
              "packed-text": chunk(b"zTXt", b"Comment\0\0" + packed),
              "international": chunk(b"iTXt", b"Comment\0\0\0\0\0" + CANARY),
              "date": chunk(b"tIME", struct.pack(">HBBBBB", 2026, 1, 2, 3, 4, 5)),
              "private": chunk(b"prVt", CANARY), "palette": chunk(b"sPLT", CANARY + b"\0\x08"),
              "profile": chunk(b"iCCP", CANARY + b"\0\0" + packed)}
    for name, extra in chunks.items():
        yield accepted(f"png-{name}", png_with(extra))
    yield accepted("png-then-text", png_with(after=CANARY), says=(AFTER,))
    yield accepted("png-then-png", png_with(after=png_with(chunk(b"tEXt", b"a\0" + CANARY))),
                   says=(AFTER,))


def beside_webp():
    yield accepted("webp-private", webp_with(piece(b"priv", CANARY)),
                   says=("other data beside the picture",))
    yield accepted("webp-profile", webp_with(piece(b"ICCP", CANARY), flags=32),
                   says=("colour profile",))
    yield accepted("webp-then-text", webp_with(after=CANARY), says=(AFTER,))
    plain = saved("WEBP")
    yield accepted("webp-plain-then-text", plain + CANARY, says=(AFTER,))


def beside_avif():
    for kind in (b"free", b"skip", b"uuid"):
        yield accepted(f"avif-{kind.decode()}", saved("AVIF") + box(kind, CANARY * 3),
                       says=("other data beside the picture",))
