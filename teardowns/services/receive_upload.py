"""A file that arrives in blocks: begin, append, and take it in when the last byte is there."""
from __future__ import annotations

import os
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any, TypeVar

from django.conf import settings
from django.db import transaction
from django.db.models import Q, QuerySet
from django.utils import timezone

from teardowns.access import unit_to_change
from teardowns.imaging.limits import MAX_BYTES
from teardowns.models import Photo, PhotoUpload, RecordingUpload, Stage

from .account_room import without_room
from .photo_files import digest
from .receive_photo import PhotoRefused, receive_photo, shown_name

LARGEST_BLOCK = 2_000_000       # bytes; the script sends 1 MiB
KEPT = timedelta(days=2)        # how long a broken upload may be gone on with
OPEN_AT_ONCE = 100              # uploads of one contributor
CHANGED = "it was changed while it was being sent. Choose it again."
Upload = TypeVar("Upload", PhotoUpload, RecordingUpload)


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
    if waiting(PhotoUpload, contributor).filter(photo=None).count() >= OPEN_AT_ONCE:
        raise PhotoRefused(name, f"{OPEN_AT_ONCE} files are on their way already. Wait until they "
                                 "have arrived.")
    if why := without_room(contributor, size):
        raise PhotoRefused(name, why)
    return PhotoUpload.objects.create(unit=unit, author=contributor, name=shown_name(name),
                                      byte_size=size, sha256=sha256, stage=stage)


def waiting(uploads: type[Upload], contributor) -> QuerySet[Upload]:
    """The contributor's own that were not refused and may still be gone on with."""
    return uploads.objects.filter(author=contributor, refusal="",
                                  changed_at__gt=timezone.now() - KEPT)


def still_known(field: str) -> Q:
    """Of uploads: those that may be gone on with, and those that became what `field` names."""
    return Q(changed_at__gt=timezone.now() - KEPT) | Q(**{f"{field}__isnull": False})


def append_block(*, contributor, upload: Upload, offset: int, block: bytes) -> Upload:
    """The upload with this block at its end. Raises WrongOffset; nothing is written twice.

    What came before may lie on another host's disk, or have been lost with it: then the sender
    begins again where this host's file ends, for a hole must never become part of an original.
    """
    with transaction.atomic():
        upload = type(upload).objects.select_for_update().get(pk=upload.pk)
        path = path_of(upload)
        if upload.received < upload.byte_size:
            upload.received = min(upload.received, path.stat().st_size if path.exists() else 0)
        follows = offset == upload.received and offset + len(block) <= upload.byte_size
        if follows:
            _write(path, offset, block)
            upload.received += len(block)
        upload.save(update_fields=["received", "changed_at"])
    if not follows:
        raise WrongOffset(upload.received)
    return upload


def finish_upload(*, contributor, upload: PhotoUpload) -> Photo:
    """The photo, once the last byte is there; safe to ask for again. Raises PhotoRefused."""
    return taken_in(upload, "photo", PhotoRefused, lambda path: receive_photo(
        contributor=contributor, unit_pk=upload.unit_id, path=path, name=upload.name,
        stage=upload.stage).photo)


def taken_in(upload: PhotoUpload | RecordingUpload, field: str, refused: type[Exception],
             receive: Callable[[Path], Any]) -> Any:
    """What the whole file became, in that field of the upload; a refusal is for good."""
    if upload.refusal:
        raise refused(upload.name, upload.refusal)
    if (there := getattr(upload, field)) is not None:
        return there
    path, uploads = path_of(upload), type(upload).objects.filter(pk=upload.pk)
    try:
        if upload.sha256 and path.exists() and digest(path) != upload.sha256:
            raise refused(upload.name, CHANGED)
        made = receive(path)
    except refused as refusal:
        uploads.update(refusal=getattr(refusal, "message", str(refusal)))
        path.unlink(missing_ok=True)
        raise
    uploads.update(**{field: made})
    path.unlink(missing_ok=True)
    return made


def path_of(upload: PhotoUpload | RecordingUpload) -> Path:
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
