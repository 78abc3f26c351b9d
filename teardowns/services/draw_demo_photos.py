"""Pictures of the demo units, drawn from their evidence, so that nobody's photograph is needed."""
from __future__ import annotations

import hashlib
import json
import multiprocessing
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from os import cpu_count
from typing import Any
from uuid import uuid4

from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.db import transaction

from teardowns.drawing.files import DrawnFile, drawn_files
from teardowns.imaging.web_annotation import written
from teardowns.models import Annotation, Photo, PhotoDerivative, PhotoScale, Unit

from .load_demo import FIXTURES, keep_demo_version
from .photo_files import original_name

# What a drawing calls a kind of row, and the kind's own name where the two differ.
KINDS = {"path": "insulationobservation", "winding": "stacklayer"}


def draw_demo_photos() -> Iterator[tuple[int, int]]:
    """Draw what demo units without pictures show; (units done, units to do) after each."""
    waiting = _waiting()
    if not waiting:
        return
    # Spawned, not forked: a database connection must not be shared.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(cpu_count() or 1, mp_context=context) as pool:
        drawings = pool.map(drawn_files, [document for _, document in waiting])
        for done, ((unit, _), files) in enumerate(zip(waiting, drawings, strict=True), start=1):
            keep_drawings(unit, files)
            keep_demo_version(unit, "Drawings of the unit were added.")
            yield done, len(waiting)


def _waiting() -> list[tuple[Unit, dict[str, Any]]]:
    documents = [json.loads(path.read_text("utf-8")) for path in sorted(FIXTURES.glob("*.json"))]
    units = {str(unit.uid): unit for unit in Unit.objects.filter(
        uid__in=[document["unit"]["uid"] for document in documents], photos=None)}
    return [(units[document["unit"]["uid"]], document) for document in documents
            if document["unit"]["uid"] in units]


@transaction.atomic
def keep_drawings(unit: Unit, files: Sequence[DrawnFile]) -> None:
    """All drawings of a unit; their files are stored before the rows that name them."""
    for drawn in files:
        photo = _photo(unit, drawn)
        for picture in drawn.pictures:
            name = f"{uuid4().hex[:2]}/{uuid4().hex}.webp"
            storages["pictures"].save(name, ContentFile(picture.content))
            PhotoDerivative.objects.create(photo=photo, width=picture.width, height=picture.height,
                                           media_type="image/webp", path=name)
        for number, mark in enumerate(drawn.marks, start=1):
            _mark(photo, f"m{number}", mark)
        if drawn.scale:
            PhotoScale.objects.create(
                photo=photo, points=[list(point) for point in drawn.scale.points],
                lengths=list(drawn.scale.lengths), length_uncertainty=drawn.scale.length_u,
                plane=drawn.scale.plane, author=photo.author)


def _photo(unit, drawn):
    sha256, store = hashlib.sha256(drawn.original).hexdigest(), storages["originals"]
    if not store.exists(original_name(sha256)):
        store.save(original_name(sha256), ContentFile(drawn.original))
    return Photo.objects.create(
        unit=unit, key=drawn.key, sha256=sha256, original_name=f"{drawn.key}.png",
        media_type="image/png", byte_size=len(drawn.original), width=drawn.width,
        height=drawn.height, stage=drawn.stage, caption=drawn.caption[:300], alt=drawn.alt[:300],
        drawn=True, author=unit.contributor,
        perceptual_hash=drawn.perceptual_hash)


def _mark(photo, key, mark):
    kind, _, row = mark.shows.partition("/")
    shows = f"{KINDS.get(kind, kind)}/{row}" if row else ""
    Annotation.objects.create(
        photo=photo, key=key, shows=shows, author=photo.author,
        body=written(mark.shape, mark.points, mark.label, shows, photo.get_absolute_url()))
