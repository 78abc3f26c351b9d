"""The mains side of a test that another instrument logged: laid beside this log's own columns."""
from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Unread
from teardowns.logs.merging import beside, best_offset
from teardowns.models import Recording

from .read_recording import channels_of


class OffsetUnknown(ValueError):
    """The two logs do not tell how they lie to each other; the message says the remedy."""


def offset_between(recording: Recording, other_key: str) -> float:
    """Seconds into the recording at which the other begins. Raises OffsetUnknown or NotRead."""
    other = _other(recording, other_key)
    if other is None:
        raise OffsetUnknown("That log is not here any more: choose another one.")
    with channels_of(recording) as mine, channels_of(other) as theirs:
        found = best_offset(mine, theirs)
    if isinstance(found, Unread):
        raise OffsetUnknown(found.why)
    return found


def input_log_of(recording: Recording) -> Recording | None:
    """The log that stands beside it, as long as that one is read and shown."""
    if not recording.conditions:
        return None
    key = Conditions.from_json(recording.conditions).input_log
    return _other(recording, key) if key else None


@contextmanager
def channels_beside(recording: Recording) -> Iterator[Channels]:
    """The log's channels, and the mains side of the other one. Raises NotRead."""
    other = input_log_of(recording)
    with channels_of(recording) as mine:
        if other is None:
            yield mine
            return
        with channels_of(other) as theirs:
            offset = Conditions.from_json(recording.conditions).input_offset
            yield beside(mine, theirs, offset)


def _other(recording, key):
    return Recording.objects.shown().filter(unit=recording.unit_id, key=key).first()
