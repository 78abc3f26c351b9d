"""Where the files of a recording lie: its original, what is being read, and its channels."""
from __future__ import annotations

import fcntl
import logging
import os
import shutil
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from functools import lru_cache
from pathlib import Path
from uuid import UUID, uuid4

from django.conf import settings
from django.core.files import File
from django.core.files.storage import storages

from teardowns.logs.detect import Proposal, detect_layout
from teardowns.logs.text_encoding import HEAD
from teardowns.models import Recording

from .local_copies import local_file, local_folder
from .photo_files import original_name

logger = logging.getLogger(__name__)


def original_at(recording: Recording) -> AbstractContextManager[Path]:
    """The original as a file of this machine. Raises FileNotFoundError."""
    return local_file("originals", original_name(recording.sha256))


def channels_at(recording: Recording) -> AbstractContextManager[Path]:
    """The folder of channel files on this machine. Raises FileNotFoundError."""
    return local_folder("channels", recording.channels)


def head_of(recording: Recording) -> bytes:
    with original_at(recording) as path:
        return read_head(path)


@lru_cache(maxsize=16)
def plain_proposal(head: bytes, name: str) -> Proposal:
    """What a file looks like by itself; asked for several times on its way. Raises RefusedLog."""
    return detect_layout(head, name=name)


def read_head(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(HEAD)


def keep_channels(folder: Path) -> str:
    """Store the files of a folder under a fresh name, which is returned; all of them or none."""
    group = uuid4().hex
    name = f"{group[:2]}/{group}"
    try:
        for path in sorted(folder.iterdir()):
            with path.open("rb") as content:
                storages["channels"].save(f"{name}/{path.name}", File(content))
    except BaseException:
        drop_channels(name)
        raise
    return name


def drop_channels(name: str) -> None:
    """Remove what lies under a name that no row has; what cannot be removed, the sweeper will."""
    store = storages["channels"]
    try:
        for file in store.listdir(name)[1]:
            store.delete(f"{name}/{file}")
        store.delete(name)                    # on a disk, the empty folder
    except FileNotFoundError:
        pass
    except Exception:                         # each storage has its own
        logger.exception("channels %s could not be removed", name)


def work_folder(reading: UUID) -> Path:
    """Where this machine gathers the channels while it reads."""
    return settings.INCOMING / f"read-{reading.hex}"


@contextmanager
def reading_alone(reading: UUID) -> Iterator[bool]:
    """Whether nobody else on this machine works in that folder; the lock ends with its process."""
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(_lock_of(reading), os.O_RDWR | os.O_CREAT, 0o600)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        is_alone = False
    else:
        is_alone = True
    try:
        yield is_alone
    finally:
        os.close(descriptor)


def forget_work(reading: UUID) -> None:
    """Remove the work folder of a reading that has ended; call it alone."""
    shutil.rmtree(work_folder(reading), ignore_errors=True)
    _lock_of(reading).unlink(missing_ok=True)


def _lock_of(reading):
    return settings.INCOMING / f"read-{reading.hex}.lock"
