"""What a file is, told by its first bytes; its name and what the sender calls it decide nothing."""
from . import heic
from .refusals import Refused, empty_file

HEAD = 512                       # bytes that are enough to tell
REMEDY = "Save the picture as JPEG and upload that."
HEIC_REMEDY = (
    "On the phone, choose the most compatible format in the camera's settings (it then takes "
    "JPEG), or share or export the picture as JPEG, and upload that.")
HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1",
               b"msf1"}
AVIF_BRANDS = {b"avif", b"avis"}

OTHERS = (                       # (first bytes, what people call it)
    (b"GIF87a", "a GIF"), (b"GIF89a", "a GIF"), (b"BM", "a BMP picture"),
    (b"II*\x00", "a TIFF or camera raw file"), (b"MM\x00*", "a TIFF or camera raw file"),
    (b"II+\x00", "a TIFF file"), (b"MM\x00+", "a TIFF file"),
    (b"%PDF", "a PDF document"), (b"%!PS", "a PostScript file"),
    (b"\xc5\xd0\xd3\xc6", "an EPS file"),
    (b"PK\x03\x04", "a ZIP archive or an office document"), (b"Rar!", "a RAR archive"),
    (b"7z\xbc\xaf\x27\x1c", "a 7z archive"), (b"\x1f\x8b", "a gzip archive"),
    (b"\x7fELF", "a program"), (b"MZ", "a program"), (b"\xca\xfe\xba\xbe", "a program"),
    (b"#!", "a script"), (b"\x00\x00\x01\x00", "an icon file"),
    (b"8BPS", "a layered editor file"), (b"\x00\x00\x00\x0cjP  \r\n", "a JPEG 2000 picture"),
    (b"\xff\x4f\xff\x51", "a JPEG 2000 picture"), (b"\xff\x0a", "a JPEG XL picture"),
    (b"\x00\x00\x00\x0cJXL ", "a JPEG XL picture"), (b"DDS ", "a DDS texture"),
    (b"icns", "an icon file"), (b"qoif", "a QOI picture"), (b"SQLite format 3", "a database"),
    (b"\x1aE\xdf\xa3", "a video"), (b"OggS", "a sound or video file"), (b"ID3", "a sound file"),
)
MARKUP = (b"<!doctype", b"<html", b"<?xml", b"<svg", b"<script", b"<?php", b"<head", b"<body")


def kinds_taken() -> dict[str, str]:
    """What people call each kind that is taken, by media type."""
    kinds = {"image/jpeg": "JPEG", "image/png": "PNG", "image/webp": "WebP", "image/avif": "AVIF"}
    return kinds | {"image/heic": "HEIC"} if heic.is_readable() else kinds


def media_type_of(head: bytes) -> str:
    """One of `kinds_taken`; raises Refused for all else."""
    if not head:
        raise empty_file()
    if head.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "image/webp"
    if head[4:8] == b"ftyp":
        return _of_container(head)
    raise _refusal(head)


def _of_container(head):
    """Pictures and films share this container; the brands tell which."""
    end = min(max(int.from_bytes(head[:4], "big"), 16), len(head), HEAD)
    brands = {head[8:12]} | {head[at:at + 4] for at in range(16, end - 3, 4)}
    if brands & AVIF_BRANDS:
        return "image/avif"
    if brands & HEIC_BRANDS:
        if heic.is_readable():
            return "image/heic"
        raise _unsupported("a HEIC picture", HEIC_REMEDY)
    if head[8:11] == b"crx":
        raise _unsupported("a camera raw file")
    raise _unsupported("a film", "Take a still picture, save it as JPEG and upload that.")


def _refusal(head):
    for start, name in OTHERS:
        if head.startswith(start):
            return _unsupported(name)
    if head[:4] == b"RIFF":
        return _unsupported("a sound or video file")
    text = head.lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if b"<svg" in text:
        return _unsupported("an SVG drawing", "Save it as PNG and upload that.")
    if text.startswith(MARKUP) or text.startswith(b"<!--"):
        return _unsupported("a web page or other text")
    return Refused(
        "unknown_type", f"The file is not a picture of a known kind; {_taken()}. {REMEDY}")


def _unsupported(name, remedy=REMEDY):
    return Refused("unsupported_type", f"The file is {name}; {_taken()}. {remedy}")


def _taken():
    *others, last = kinds_taken().values()
    return f"{', '.join(others)} and {last} pictures are taken"
