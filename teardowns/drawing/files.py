"""All pictures of a unit as files with their words: a job that another process can do."""
from __future__ import annotations

from typing import NamedTuple

from teardowns.drawing.encoding import Encoded, for_pages, lossless
from teardowns.drawing.picture import Mark, Scale
from teardowns.drawing.pictures import pictures_of
from teardowns.exchange.document import read_document
from teardowns.imaging.perceptual_hash import perceptual_hash


class DrawnFile(NamedTuple):
    key: str
    stage: str
    caption: str
    alt: str
    width: int
    height: int
    original: bytes           # PNG
    perceptual_hash: int      # signed, 64 bit
    pictures: list[Encoded]
    marks: tuple[Mark, ...]
    scale: Scale | None


def drawn_files(document: dict) -> list[DrawnFile]:
    """Of an exchange document as it was parsed from JSON. Raises exchange's DocumentError."""
    return [DrawnFile(each.key, each.stage, each.caption, each.alt, *each.image.size,
                      lossless(each.image), perceptual_hash(each.image), for_pages(each.image),
                      each.marks, each.scale)
            for each in pictures_of(read_document(document))]
