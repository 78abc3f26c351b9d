"""Take in one log: may they, is it a table of text, keep the original, record, log."""
from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from django.db import IntegrityError, transaction
from django.utils.text import slugify

from core.audit.record import record
from teardowns.access import unit_to_change
from teardowns.logs.limits import MOST_BYTES
from teardowns.logs.refusals import RefusedLog
from teardowns.models import Port, Recording, RecordingKind, Unit

from .account_room import without_room
from .locked_recording import save_recording
from .photo_files import digest, keep_original
from .receive_photo import shown_name
from .recording_files import plain_proposal, read_head

MOST_RECORDINGS = 200          # of one unit
TOO_LARGE = (f"it is larger than {MOST_BYTES / 1e6:.0f} MB. Log with a longer interval, or send it "
             "in parts.")
EMPTY = "the file is empty. Choose it again."


class RecordingRefused(Exception):
    """What is wrong with one file, with its name, and the remedy."""

    def __init__(self, name: str, message: str):
        super().__init__(f"{shown_name(name)}: {message}")
        self.message = message


@dataclass(frozen=True)
class ReceivedRecording:
    recording: Recording
    is_new: bool               # False: the unit had this very file already


@dataclass(frozen=True)
class About:
    """What the contributor says of a file when it comes in."""

    kind: str                  # of RecordingKind
    port: str = ""             # key of a port of the unit
    instrument: str = ""


def receive_recording(*, contributor, unit_pk: int, path: Path, name: str, about: About
                      ) -> ReceivedRecording:
    """The recording in this file, not laid out yet. Raises Http404 or RecordingRefused.

    The file is stored before the row that names it: a crash between leaves a file that nothing
    names, which the sweeper finds, and never a row without its file.
    """
    unit = unit_to_change(contributor, unit_pk)
    _check(path, name, about)
    sha256 = digest(path)
    known = Recording.objects.filter(unit=unit, sha256=sha256).first()
    if known is not None and known.received:
        return again(known, contributor)
    if unit.recordings.count() >= MOST_RECORDINGS and known is None:
        raise RecordingRefused(name, f"this unit has {MOST_RECORDINGS} recordings already. Take "
                                     "one to another unit, or write to a moderator.")
    if why := without_room(contributor, path.stat().st_size):
        raise RecordingRefused(name, why)
    keep_original(path, sha256)
    try:
        return ReceivedRecording(_record(known, unit, contributor, path, name, sha256, about), True)
    except IntegrityError:
        # The same file came twice at the same moment.
        twin = Recording.objects.filter(unit=unit, sha256=sha256).first()
        if twin is None:
            raise
        return ReceivedRecording(twin, False)


def _check(path, name, about):
    size = path.stat().st_size
    if not 0 < size <= MOST_BYTES:
        raise RecordingRefused(name, TOO_LARGE if size else EMPTY)
    if about.kind == RecordingKind.PROTOCOL:
        return                           # capability lists are no table
    try:
        plain_proposal(read_head(path), name)
    except RefusedLog as refusal:
        raise RecordingRefused(name, str(refusal)) from refusal


def again(recording: Recording, contributor) -> ReceivedRecording:
    """A recording that was taken down and is sent once more is shown again."""
    if recording.taken_down_at:
        recording.taken_down_at, recording.take_down_reason = None, ""
        recording.set_aside = False
        save_recording(contributor, recording, "Sent once more")
    return ReceivedRecording(recording, False)


@transaction.atomic
def _record(known, unit, contributor, path, name, sha256, about):
    """A recording that came in with a document alone is a digest; here is its file."""
    Unit.objects.select_for_update().get(pk=unit.pk)            # one new key at a time
    unit = unit_to_change(contributor, unit.pk)
    recording = known or Recording(
        unit=unit, key=_key(unit, about.kind), sha256=sha256, kind=about.kind,
        original_name=shown_name(name), instrument=about.instrument, author=contributor,
        port=Port.objects.filter(unit=unit, key=about.port).first())
    recording.received, recording.byte_size = True, path.stat().st_size
    _save(recording, contributor)
    record(contributor, "recording_received", unit, recording=recording.key, sha256=sha256)
    return recording


def _save(recording, contributor):
    recording._history_user = contributor
    recording.save()


def _key(unit, kind):
    """ "load-sweep-2": stable, and readable in an address."""
    stem = slugify(kind.replace("_", "-"))
    number, taken = 1, set(unit.recordings.values_list("key", flat=True))
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"
