"""What became of a hostile file, told from the answer, and what may have been left behind."""
from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

from tests.drills.writing import Ledger
from tests.hostile.building import ACCEPTED, CANARY
from tests.hostile.corpus import PHOTOS, Sent

# The first words of what a contributor is told, by the code of imaging/refusals.py.
WORDS = {
    "corrupt_image": "The picture is damaged", "too_complex": "The picture is built in too many|"
    "The picture needs too much memory", "animated": "The file holds a moving picture",
    "too_much_metadata": "The file carries too much", "too_large": "The file has |it is larger",
    "empty_file": "The file is empty|the file is empty|No file came|The body is empty",
    "too_many_pixels": "The picture has", "decode_timeout": "The picture took too long",
    "decode_failed": "The picture could not be decoded",
    "unsupported_type": "The file is a|This is a",
    "unknown_type": "The file is no|This is no|It is not known",
}


@dataclass(frozen=True)
class Answered:
    """One file, or one page, and what was answered."""

    name: str
    way: str
    status: int                 # 0: no answer
    took: float                 # s
    verdict: str = ""           # ACCEPTED, a code, or the first words of what was said
    sent: Sent | None = None
    unit: int = 0
    key: str = ""               # of what it became
    said: str = ""

    @property
    def is_kept(self) -> bool:
        return self.verdict == ACCEPTED

    @property
    def is_right(self) -> bool:
        """Where one verdict is known to be the right one, it is that."""
        wanted = self.sent.verdicts if self.sent else frozenset()
        return not wanted or self.verdict in wanted

    def __str__(self) -> str:
        wanted = sorted(self.sent.verdicts) if self.sent else ""
        return (f"{self.way} {self.name[:50]!r}: {self.status} {self.verdict} {wanted} "
                f"{self.said[:160]}")


def verdict_of(kind: str, message: str) -> str:
    """The code of a refusal; of a log its first words, for it has no codes outside."""
    words = message.partition(": ")[2] or message
    for code, starts in WORDS.items():
        if re.search(rf"(^|: )({starts})", message):
            return code
    return words[:40] if kind == PHOTOS else f"log: {re.sub(r'[0-9]+', 'n', words)[:28]}"


def ledger_of(answered: list[Answered]) -> Ledger:
    """What was answered as kept, to be held against tables and files."""
    ledger = Ledger()
    for each in answered:
        if each.is_kept and each.sent:
            kept = ledger.photos if each.sent.kind == PHOTOS else ledger.logs
            kept[each.unit, each.key] = each.sent.sha256
    return ledger


def remains(site) -> dict[str, list]:
    """By kind of debris, each thing that should be gone."""
    from pathlib import Path

    from django.conf import settings
    from django.core.files.storage import storages

    from teardowns.models import PhotoUpload, RecordingUpload
    from teardowns.services.sweep_files import files_below, named_files

    left: dict[str, list] = {"temporary files": sorted(
        str(path) for folder in (settings.INCOMING, Path(site.environment["TMPDIR"]))
        for path in (folder.iterdir() if folder.is_dir() else ()))}
    left["uploads neither kept nor refused"] = [
        *PhotoUpload.objects.filter(photo=None, refusal=""),
        *RecordingUpload.objects.filter(recording=None, refusal="")]
    for alias, named, name_of in named_files():
        there = {name_of(name) for name in files_below(storages[alias])}
        left[f"{alias}: files that no row names"] = sorted(there - named)
        left[f"{alias}: rows without their file"] = sorted(named - there)
    return left


def shown_wrongly() -> list[str]:
    """Pictures that are not WebP of our own making, do not open, or carry something."""
    from django.core.files.storage import storages
    from PIL import Image

    from teardowns.models import Photo, PhotoDerivative

    wrong, seen = [], Counter()
    for each in PhotoDerivative.objects.select_related("photo").iterator():
        seen[each.photo_id] += 1
        with storages["pictures"].open(each.path) as file:
            data = file.read()
            try:
                with Image.open(file, formats=["WEBP"]) as picture:
                    picture.load()
                    carries = {"exif", "xmp", "icc_profile"} & set(picture.info)
            except Exception as error:
                carries = {repr(error)}
        if carries or CANARY in data or b"<script" in data or b"<?php" in data:
            wrong.append(f"{each.path}: {carries or 'gave something away'}")
    bare = Photo.objects.exclude(pk__in=seen).values_list("key", flat=True)
    return wrong + [f"{key}: no picture of it" for key in bare]
