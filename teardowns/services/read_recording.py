"""Read a log a slice at a time into files of numbers, wherever the next request arrives.

The channels grow in a work folder of this machine, and how far they reach is written beside them,
so that neither can be ahead of the other for good: what a kill left beyond is cut off by the next
slice. The row tells the pages. Another machine begins at the first byte and goes its own way; who
is first at the end has read it. When the last slice is there, the files go to the storage under a
fresh name, and then the row names them.
"""
from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.utils import timezone

from teardowns.logs.channel_files import finish, holds, open_channels
from teardowns.logs.channels import Channels
from teardowns.logs.layout import Layout
from teardowns.logs.reading import Progress, read_slice
from teardowns.logs.refusals import RefusedLog
from teardowns.models import Recording

from .recording_files import (
    channels_at,
    drop_channels,
    forget_work,
    keep_channels,
    original_at,
    reading_alone,
    work_folder,
)

SLICE = 16 << 20                 # bytes of the original that one request reads
PROGRESS = "progress.json"       # in the work folder, beside the folder of the channels


class NotRead(Exception):
    """The recording has no channels yet: it is not laid out, being read, or was refused."""


def read_on(recording: Recording) -> Progress:
    """One slice more, unless somebody else is at it: how far it came by now.

    Raises NotRead where no layout is confirmed, RefusedLog where the log cannot be read with it.
    """
    with reading_alone(recording.reading) as is_alone:
        now = Recording.objects.get(pk=recording.pk)
        if not now.is_laid_out:
            raise NotRead
        if now.refusal:
            raise RefusedLog("refused", now.refusal, now.refusal_line, now.refusal_column)
        if now.is_read or not is_alone or now.reading != recording.reading:
            return _told(now)
        return _read_on(now)


def _told(recording):
    if not recording.progress:
        return Progress(size=recording.byte_size)
    return Progress.from_json(recording.progress)


def _read_on(recording):
    layout, folder = Layout.from_json(recording.layout), work_folder(recording.reading)
    try:
        progress = _so_far(folder, layout)
        if progress is None or not progress.finished:
            progress = _slice(recording, layout, folder, progress)
        if progress.finished:
            _publish(recording, layout, folder, progress)
    except RefusedLog as refusal:
        _still(recording).update(refusal=refusal.why, refusal_line=refusal.line,
                                 refusal_column=refusal.column, progress={})
        forget_work(recording.reading)
        raise
    return progress


def _so_far(folder: Path, layout: Layout) -> Progress | None:
    try:
        progress = Progress.from_json(json.loads((folder / PROGRESS).read_text()))
    except FileNotFoundError:
        return None
    return progress if holds(folder / "channels", layout, progress.rows) else None


def _slice(recording, layout, folder, progress):
    channels = folder / "channels"
    channels.mkdir(parents=True, exist_ok=True)
    with original_at(recording) as path, path.open("rb") as source:
        progress = read_slice(source, path.stat().st_size, layout, progress, channels,
                              most_bytes=SLICE)
    _write_down(folder, progress)
    _still(recording).update(progress=progress.to_json())
    return progress


def _write_down(folder, progress):
    """How far it came; the channels are on the disk by now."""
    aside = folder / f"{PROGRESS}.new"
    with aside.open("w") as file:
        json.dump(progress.to_json(), file)
        file.flush()
        os.fsync(file.fileno())
    os.replace(aside, folder / PROGRESS)


def _publish(recording, layout, folder, progress):
    """Files first, then the row; whoever finds the row named already takes the files back."""
    finish(folder / "channels", layout)
    name = keep_channels(folder / "channels")
    is_first = _still(recording).update(channels=name, rows=progress.rows, read_at=timezone.now(),
                                        progress=progress.to_json())
    if not is_first:
        drop_channels(name)
    forget_work(recording.reading)


def _still(recording):
    """The row, as long as that reading is the one that is wanted and nobody has ended it."""
    return Recording.objects.filter(pk=recording.pk, reading=recording.reading, channels="")


@contextmanager
def channels_of(recording: Recording) -> Iterator[Channels]:
    """Time and channels, mapped from files. Raises NotRead or FileNotFoundError."""
    if not recording.is_read:
        raise NotRead
    with channels_at(recording) as folder:
        yield open_channels(folder, Layout.from_json(recording.layout))
