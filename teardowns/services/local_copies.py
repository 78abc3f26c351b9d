"""A stored file as one on this machine's disk: itself, or a copy of what lies in the bucket.

Copies lie in a folder each below settings.COPIES; those used longest ago go first. Whoever works
with one holds its folder locked, and a locked folder is left alone.
"""
from __future__ import annotations

import fcntl
import os
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from django.conf import settings
from django.core.files.storage import Storage, storages

BLOCK = 1 << 20
ONLY = "file"              # name of a single file inside the folder of its copy
ASIDE = ".new-"            # what is still arriving


@contextmanager
def local_file(alias: str, name: str) -> Iterator[Path]:
    """The file of a storage. Raises FileNotFoundError."""
    store = storages[alias]
    if own := _own_path(store, name):
        yield own
        return
    with _copy(alias, name, lambda: ((name, ONLY),)) as folder:
        yield folder / ONLY


@contextmanager
def local_folder(alias: str, name: str) -> Iterator[Path]:
    """A folder with all files that lie directly in this one. Raises FileNotFoundError."""
    store = storages[alias]
    if own := _own_path(store, name):
        yield own
        return
    with _copy(alias, name, lambda: _listed(store, name)) as folder:
        yield folder


def _own_path(store: Storage, name: str) -> Path | None:
    try:
        return Path(store.path(name))
    except NotImplementedError:          # no disk of this machine
        return None


def _listed(store, name):
    files = store.listdir(name)[1]
    if not files:
        raise FileNotFoundError(f"There is nothing below {name}.")
    return [(f"{name}/{file}", file) for file in files]


@contextmanager
def _copy(alias: str, name: str, files: Callable[[], Iterable[tuple[str, str]]]
          ) -> Iterator[Path]:
    place = settings.COPIES / alias / name.replace("/", "-")
    descriptor = _held(place)
    while descriptor is None:            # not there, or removed between making and holding it
        _fetch(storages[alias], place, files())
        descriptor = _held(place)
    try:
        os.utime(place)                  # used just now
        _make_room()
        yield place
    finally:
        os.close(descriptor)


def _held(place: Path) -> int | None:
    """A descriptor that keeps the folder, or None if there is no such folder."""
    try:
        descriptor = os.open(place, os.O_RDONLY)
    except FileNotFoundError:
        return None
    fcntl.flock(descriptor, fcntl.LOCK_SH)
    if place.exists() and os.path.samestat(os.fstat(descriptor), place.stat()):
        return descriptor
    os.close(descriptor)
    return None


def _fetch(store, place, files):
    place.parent.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(dir=settings.COPIES, prefix=ASIDE))
    try:
        for name, file in files:
            with store.open(name) as source, (aside / file).open("wb") as target:
                shutil.copyfileobj(source, target, BLOCK)
        if not place.exists():           # somebody else may have been faster
            aside.rename(place)
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def _make_room() -> None:
    """Remove the copies used longest ago until the rest fits."""
    copies = sorted(_weighed())
    over = sum(size for *_, size in copies) - settings.COPIES_BYTES
    for _, place, size in copies:
        if over <= 0:
            return
        if _removed(place):
            over -= size


def _weighed() -> Iterator[tuple[float, Path, int]]:
    """When it was last used, and its bytes; others may remove copies meanwhile."""
    for place in settings.COPIES.glob("*/*"):
        with suppress(FileNotFoundError, NotADirectoryError):
            size = sum(file.stat().st_size for file in place.iterdir())
            yield place.stat().st_mtime, place, size


def _removed(place: Path) -> bool:
    """Whether nobody works with it, so that it could be removed."""
    try:
        descriptor = os.open(place, os.O_RDONLY)
    except FileNotFoundError:
        return True
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        shutil.rmtree(place, ignore_errors=True)
    except BlockingIOError:
        return False
    finally:
        os.close(descriptor)
    return True
