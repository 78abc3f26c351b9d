"""A photo that arrives in blocks: begin, append, and take it in when the last byte is there."""
from __future__ import annotations

import os
from datetime import timedelta
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from teardowns.access import unit_to_change
from teardowns.imaging.limits import MAX_BYTES
from teardowns.models import Photo, PhotoUpload, Stage

from .receive_photo import PhotoRefused, receive_photo, shown_name

LARGEST_BLOCK = 2_000_000       # bytes; the script sends 1 MiB
KEPT = timedelta(days=2)        # how long a broken upload may be gone on with
OPEN_AT_ONCE = 100              # uploads of one contributor


class WrongOffset(Exception):
    """The block does not follow what has arrived; `expected` is where it has to begin."""

    def __init__(self, expected: int):
        super().__init__(f"Expected a block from byte {expected}.")
        self.expected = expected


def begin_upload(*, contributor, unit_pk: int, name: str, size: int, sha256: str = "",
                 stage: str = Stage.OTHER) -> PhotoUpload | Photo:
    """A new upload, or the photo if the unit has that file. Raises Http404 or PhotoRefused."""
    unit = unit_to_change(contributor, unit_pk)
    known = sha256 and Photo.objects.shown().filter(unit=unit, sha256=sha256).first()
    if known:
        return known
    if not 0 < size <= MAX_BYTES:
        raise PhotoRefused(name, "the file is empty. Choose it again." if size <= 0 else
                           f"it is larger than {MAX_BYTES / 1e6:.0f} MB. Send a smaller copy.")
    waiting = PhotoUpload.objects.filter(author=contributor, photo=None, refusal="",
                                         changed_at__gt=timezone.now() - KEPT)
    if waiting.count() >= OPEN_AT_ONCE:
        raise PhotoRefused(name, f"{OPEN_AT_ONCE} files are on their way already. Wait until they "
                                 "have arrived.")
    return PhotoUpload.objects.create(unit=unit, author=contributor, name=shown_name(name),
                                      byte_size=size, stage=stage)


def append_block(*, contributor, upload: PhotoUpload, offset: int, block: bytes
                 ) -> PhotoUpload:
    """The upload with this block at its end. Raises WrongOffset; nothing is written twice."""
    with transaction.atomic():
        upload = PhotoUpload.objects.select_for_update().get(pk=upload.pk)
        if offset != upload.received or offset + len(block) > upload.byte_size:
            raise WrongOffset(upload.received)
        _write(path_of(upload), offset, block)
        upload.received += len(block)
        upload.save(update_fields=["received", "changed_at"])
    return upload


def finish_upload(*, contributor, upload: PhotoUpload) -> Photo:
    """The photo, once the last byte is there; safe to ask for again. Raises PhotoRefused."""
    if upload.refusal:
        raise PhotoRefused(upload.name, upload.refusal)
    if upload.photo is not None:
        return upload.photo
    path = path_of(upload)
    try:
        received = receive_photo(contributor=contributor, unit_pk=upload.unit_id, path=path,
                                 name=upload.name, stage=upload.stage)
    except PhotoRefused as refusal:
        PhotoUpload.objects.filter(pk=upload.pk).update(refusal=refusal.message)
        path.unlink(missing_ok=True)
        raise
    PhotoUpload.objects.filter(pk=upload.pk).update(photo=received.photo)
    path.unlink(missing_ok=True)
    return received.photo


def path_of(upload: PhotoUpload) -> Path:
    return settings.INCOMING / f"{upload.uid.hex}.part"


def _write(path, offset, block):
    """On the disk before the row says so; what a crash wrote beyond the row is written over."""
    path.parent.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    with os.fdopen(descriptor, "r+b") as file:
        file.truncate(offset)
        file.seek(offset)
        file.write(block)
        file.flush()
        os.fsync(file.fileno())
