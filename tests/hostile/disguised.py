"""Files that are two things at once, and files that are no picture of a kind that is taken."""
import io
import zipfile

from PIL import Image

from teardowns.imaging.heic import is_readable

from .building import (
    ACCEPTED,
    CANARY,
    SIZE,
    Case,
    accepted,
    chunk,
    control,
    header,
    jpeg_with,
    png_of,
    png_with,
    refused,
    saved,
    segment,
)
from .pictures import rows

HTML = b"<html><script>alert('" + CANARY + b"')</script></html>"
PHP = b"<?php echo '" + CANARY + b"'; ?>"
OTHER = ("unsupported_type", "unknown_type")
TAKEN = {"JPEG", "PNG", "WEBP", "AVIF"}


def cases():
    yield from two_things()
    yield from drawings()
    yield from no_pictures()
    yield from containers()
    yield from other_formats()


def two_things():
    packed = archive()
    yield accepted("png-and-page", png_with(after=HTML))
    yield accepted("png-page-inside", png_with(chunk(b"tEXt", b"Title\0" + HTML)))
    yield accepted("png-and-archive", png_with(after=packed))
    yield accepted("jpeg-and-archive", jpeg_with(after=packed))
    yield accepted("jpeg-and-program", jpeg_with(segment(0xFE, PHP)))
    yield accepted("jpeg-and-document", jpeg_with(segment(0xFE, b"%PDF-1.4 " + CANARY)))
    yield accepted("webp-and-page", saved("WEBP") + HTML)
    raw = (PHP * 20)[:SIZE[0] * 3] + b"\x80" * (SIZE[0] * 3 * (SIZE[1] - 1))
    yield accepted("png-program-in-pixels", png_of(
        header(*SIZE), rows(raw, SIZE[0] * 3), chunk(b"IEND")), corners=None)
    gif = saved("GIF")
    yield refused("gif-and-archive", gif + packed, "unsupported_type")
    yield refused("gif-and-script", b"GIF89a/*" + gif[8:] + b"*/=1;alert(1)", "unsupported_type")
    yield refused("document-and-jpeg", b"%PDF-1.4\n" + saved("JPEG"), "unsupported_type")
    yield refused("page-and-png", HTML + png_with(), "unsupported_type")
    yield refused("space-and-png", b" " + png_with(), *OTHER)


def archive():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as file:
        file.writestr(zipfile.ZipInfo("META-INF/MANIFEST.MF"), CANARY)
    return out.getvalue()


def drawings():
    start = b'<svg xmlns="http://www.w3.org/2000/svg">'
    bodies = {"script": b"<script>alert(1)</script>", "event": b'<g onload="alert(1)"/>',
              "link": b'<a href="javascript:alert(1)"><text>x</text></a>',
              "outside": b'<image href="http://127.0.0.1:9/x"/>', "style": b"<style>*{}</style>",
              "foreign": b"<foreignObject><iframe src='/'/></foreignObject>"}
    for name, body in bodies.items():
        yield refused(f"svg-{name}", start + body + b"</svg>", "unsupported_type")
    for name, before in {"declared": b'<?xml version="1.0"?>', "marked": b"\xef\xbb\xbf",
                         "commented": b"<!-- drawn -->\n"}.items():
        yield refused(f"svg-{name}", before + start + b"</svg>", "unsupported_type")
    yield refused("svg-utf16", ("\ufeff" + start.decode()).encode("utf-16-le"), *OTHER)
    yield refused("svg-packed", b"\x1f\x8b\x08\0" + b"\0" * 40, "unsupported_type")


def no_pictures():
    files = {"page": HTML, "program": PHP, "document": b"%PDF-1.7\n", "postscript": b"%!PS-Adobe",
             "eps": b"\xc5\xd0\xd3\xc6" + b"\0" * 28, "elf": b"\x7fELF\2\1\1" + b"\0" * 60,
             "exe": b"MZ\x90\0" + b"\0" * 60, "class": b"\xca\xfe\xba\xbe\0\0\0\x34",
             "archive": archive(), "rar": b"Rar!\x1a\7\0", "7z": b"7z\xbc\xaf\x27\x1c",
             "shell": b"#!/bin/sh\nid\n", "editor": b"8BPS\0\1", "sound": b"RIFF\x24\0\0\0WAVEfmt ",
             "film": b"RIFF\x24\0\0\0AVI LIST", "matroska": b"\x1aE\xdf\xa3",
             "icon": b"\0\0\1\0\1\0", "database": b"SQLite format 3\0", "jxl": b"\xff\x0a\0\0",
             "jxl-boxed": b"\0\0\0\x0cJXL \r\n\x87\n"}
    for name, data in files.items():
        yield refused(f"file-{name}", data, "unsupported_type")
    for name, data in {"text": b"time,voltage\n0,5.1\n", "zeros": b"\0" * 4_096,
                       "one-byte": b"\xff",
                       "script": b"alert(1)//", "json": b'{"a": 1}', "half-magic": b"\x89PNG\r\n",
                       "noise": bytes(n * 151 % 256 for n in range(2_000))}.items():
        yield refused(f"file-{name}", data, "unknown_type")


def containers():
    for brand in (b"heic", b"heix", b"hevc", b"heim", b"mif1"):
        codes = ("corrupt_image", "animated") if is_readable() else ("unsupported_type",)
        yield refused(f"heic-{brand.decode()}", b"\0\0\0\x18ftyp" + brand + b"\0\0\0\0" + brand
                      + b"heic", *codes)
    for brand in (b"isom", b"mp42", b"qt  ", b"M4V ", b"crx "):
        yield refused(f"film-{brand.decode().strip()}", b"\0\0\0\x14ftyp" + brand + b"\0\0\0\0"
                      + brand, "unsupported_type")


def other_formats():
    """Every other format that this Pillow can write, so that the list grows with it."""
    Image.init()
    for format in sorted(set(Image.SAVE) - TAKEN):
        for mode in ("RGB", "L", "1", "P"):
            try:
                data = saved(format, control((32, 32)).convert(mode))
            except (OSError, ValueError, KeyError, TypeError, AttributeError):
                continue                 # that format holds no such pixels, or writes by a stub
            if not data.startswith(b"\xff\xd8\xff"):       # MPO with one picture is a JPEG
                yield Case(f"other-{format}-{mode}".lower(), data, frozenset(OTHER) - {ACCEPTED})
            break
