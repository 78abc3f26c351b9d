"""Demo units, and documents that say only what a test needs."""
from functools import cache, lru_cache
from pathlib import Path

from teardowns.drawing.pictures import pictures_of
from teardowns.exchange.document import read_document

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "units"
NAMES = sorted(path.stem for path in FOLDER.glob("*.json"))


@cache
def demo(number):
    """The demo unit with this number."""
    path = next(path for path in sorted(FOLDER.glob("*.json")) if path.name.startswith(number))
    return read_document(path.read_text(encoding="utf-8"))


@lru_cache(maxsize=3)          # a unit's pictures take some 60 MB
def drawn(number):
    """Its pictures by their keys."""
    return {picture.key: picture for picture in pictures_of(demo(number))}


def document(**lists):
    """A full document with these lists of rows and nothing else."""
    return read_document({"form": "underplate-unit/1", "unit": {"title": "Test unit"}} | lists)


def labels(picture, start):
    return [mark.label for mark in picture.marks if mark.shows.startswith(start)]
