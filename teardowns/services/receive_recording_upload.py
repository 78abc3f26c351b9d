"""A log that arrives in blocks: begin, and take it in when the last byte is there."""
from __future__ import annotations

from teardowns.access import unit_to_change
from teardowns.logs.limits import MOST_BYTES
from teardowns.models import Recording, RecordingUpload

from .account_room import without_room
from .receive_photo import shown_name
from .receive_recording import EMPTY, TOO_LARGE, About, RecordingRefused, again, receive_recording
from .receive_upload import taken_in, waiting

OPEN_AT_ONCE = 20               # uploads of one contributor: each may be large


def begin_recording_upload(*, contributor, unit_pk: int, name: str, size: int, about: About,
                           sha256: str = "") -> RecordingUpload | Recording:
    """A new upload, or the recording if the unit has that file.

    Blocks are added by `receive_upload.append_block`. Raises Http404 or RecordingRefused.
    """
    unit = unit_to_change(contributor, unit_pk)
    known = sha256 and Recording.objects.filter(unit=unit, sha256=sha256, received=True).first()
    if known:
        return again(known, contributor).recording
    if not 0 < size <= MOST_BYTES:
        raise RecordingRefused(name, EMPTY if size <= 0 else TOO_LARGE)
    if waiting(RecordingUpload, contributor).filter(recording=None).count() >= OPEN_AT_ONCE:
        raise RecordingRefused(name, f"{OPEN_AT_ONCE} files are on their way already. Wait until "
                                     "they have arrived.")
    if why := without_room(contributor, size):
        raise RecordingRefused(name, why)
    return RecordingUpload.objects.create(
        unit=unit, author=contributor, name=shown_name(name), byte_size=size, sha256=sha256,
        kind=about.kind, port=about.port, instrument=about.instrument)


def finish_recording_upload(*, contributor, upload: RecordingUpload) -> Recording:
    """The recording, once the last byte is there; safe to ask for again.

    Raises RecordingRefused.
    """
    about = About(upload.kind, upload.port, upload.instrument)
    return taken_in(upload, "recording", RecordingRefused, lambda path: receive_recording(
        contributor=contributor, unit_pk=upload.unit_id, path=path, name=upload.name,
        about=about).recording)
