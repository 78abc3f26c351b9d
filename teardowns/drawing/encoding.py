"""A drawn picture as files: one without loss, and smaller ones for pages."""
from __future__ import annotations

from io import BytesIO
from typing import NamedTuple

from PIL import Image

from teardowns.imaging.limits import LIST_WIDTH

WIDTHS = (LIST_WIDTH, 640, 1600)      # px


class Encoded(NamedTuple):
    width: int
    height: int
    content: bytes            # WebP


def lossless(image: Image.Image) -> bytes:
    """PNG, with nothing in it but pixels; the same picture gives the same bytes."""
    written = BytesIO()
    image.save(written, "PNG", compress_level=4)
    return written.getvalue()


def for_pages(image: Image.Image) -> list[Encoded]:
    """WebP, largest first, never larger than the picture itself."""
    found = []
    for width in sorted({min(width, image.width) for width in WIDTHS}, reverse=True):
        height = round(image.height * width / image.width)
        if image.size != (width, height):
            image = image.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=2.0)
        written = BytesIO()
        image.save(written, "WEBP", quality=82, method=1)
        found.append(Encoded(width, height, written.getvalue()))
    return found
