"""What a log is said to show, what wrote it and at which port, and taking it down."""
from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from teardowns import access
from teardowns.models import Port, Recording

from .cite_part import SaveRefused
from .describe_photo import OF_A_VERSION
from .locked_recording import StaleRecording, locked_recording, log_recording, save_recording
from .save_section import differs


@transaction.atomic
def describe_recording(*, author, recording: Recording, version: int, caption: str,
                       instrument: str, port: str) -> bool:
    """Whether something had to be changed; `port` is a key. Raises Http404 or StaleRecording."""
    recording = locked_recording(author, recording)
    values = {"caption": caption, "instrument": instrument,
              "port": Port.objects.filter(unit=recording.unit, key=port).first()}
    if not differs(recording, values):
        return False
    if recording.version != version:
        raise StaleRecording
    for name, value in values.items():
        setattr(recording, name, value)
    save_recording(author, recording, "Described")
    log_recording(author, recording, "recording_described",
                  version=recording.version)
    return True


@transaction.atomic
def take_down_recording(*, author, recording: Recording, reason: str) -> None:
    """Shown to nobody from now on; the original and what was read out of it stay."""
    recording = locked_recording(author, recording)
    if not access.may_take_down(author, recording):
        raise SaveRefused(OF_A_VERSION)
    recording.taken_down_at, recording.take_down_reason = timezone.now(), reason
    save_recording(author, recording, "Taken down")
    log_recording(author, recording, "recording_taken_down", reason=reason)
