"""The version that stands, as a bag in one file, with its pictures, marks and log values."""
from __future__ import annotations

import json
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import IO, Any

from django.core.files.storage import storages

from teardowns.bulk.bag import write_bag
from teardowns.logs.written import rows_as_text
from teardowns.models import Annotation, Photo, PhotoDerivative, Publication

from .merge_recordings import channels_beside
from .public_records import public_records
from .thaw import Thawed, thaw

ORGANISATION = "Underplate"
WIDEST = 2560                    # px of the pictures in a bag


@contextmanager
def bag_of(publication: Publication) -> Iterator[IO[bytes]]:
    """A zip file, open at its beginning. publication : with its unit and its `standing`"""
    record, = public_records([publication])
    with tempfile.TemporaryFile() as target:
        write_bag(target, bag_name(publication), record, _files(thaw(publication)), ORGANISATION)
        target.seek(0)
        yield target


def bag_name(publication: Publication) -> str:
    return f"underplate-unit-{publication.unit_id}-v{publication.number}"


def _files(thawed: Thawed) -> Iterator[tuple[str, Iterable[bytes]]]:
    pictures = _largest(thawed.unit.pk)
    for photo in thawed.rows["photo"]:
        if photo.pk in pictures:
            yield from _picture(photo, pictures[photo.pk], thawed.of_photo(Annotation, photo))
    for recording in thawed.rows["recording"]:
        if recording.is_shown:
            yield from _values(recording)


def _largest(unit_pk: int) -> dict[int, str]:
    """By photo that everybody sees, where its largest picture lies."""
    shown = Photo.objects.shown().filter(unit=unit_pk).with_hidden().filter(is_hidden=False)
    found = PhotoDerivative.objects.filter(photo__in=shown.values("pk"), width__lte=WIDEST)
    return dict(found.order_by("width").values_list("photo", "path"))     # the last one stays


def _picture(photo: Any, path: str, marks: list[Any]) -> Iterator[tuple[str, Iterable[bytes]]]:
    with storages["pictures"].open(path) as file:
        yield f"photos/{photo.key}.webp", file.chunks()
    if marks:
        told = json.dumps([mark.body for mark in marks], ensure_ascii=False, indent=1)
        yield f"photos/{photo.key}.annotations.json", [told.encode()]


def _values(recording: Any) -> Iterator[tuple[str, Iterable[bytes]]]:
    try:
        with channels_beside(recording) as channels:
            rows = rows_as_text(channels, float(channels.time[0]), float(channels.time[-1]))
            yield f"recordings/{recording.key}.csv", (row.encode() for row in rows)
    except FileNotFoundError:
        return                   # its numbers are missing: the page of the log says so
