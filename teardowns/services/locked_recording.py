"""The recording that a service is about to change, one change at a time."""
from __future__ import annotations

from core.audit.record import record
from teardowns import access
from teardowns.models import Recording


class StaleRecording(Exception):
    """Somebody changed the recording since the page was drawn; nothing was saved."""


def locked_recording(author, recording: Recording) -> Recording:
    """As it stands now, locked until the transaction ends. Raises Http404."""
    Recording.objects.select_for_update().get(pk=recording.pk)
    return access.recording_to_change(author, recording.unit_id, recording.key)


def save_recording(author, recording, reason: str) -> None:
    """A new version, with who made it and why in its history."""
    recording.version += 1
    recording._history_user, recording._change_reason = author, reason
    recording.save()


def log_recording(author, recording: Recording, action: str, **detail) -> None:
    record(author, action, recording.unit_id, recording=recording.key, **detail)
