"""Where the files of a photo lie, and how they come there: files first, then rows."""
from __future__ import annotations

import hashlib
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from uuid import uuid4

from django.conf import settings
from django.core.files import File
from django.core.files.storage import Storage, storages

from core.outages import FilesDamaged
from teardowns.imaging.derive import Derived
from teardowns.models import Photo, PhotoDerivative

BLOCK = 1 << 20
NOT_STORED = ("The server could not store it just now, and nothing was changed. Try again later; "
              "if it stays so, tell a moderator.")


@contextmanager
def workshop() -> Iterator[Path]:
    """A folder of our own beside the incoming files, gone afterwards whatever happens."""
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    folder = Path(tempfile.mkdtemp(dir=settings.INCOMING, prefix="work-"))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def digest(path: Path) -> str:
    found = hashlib.sha256()
    with path.open("rb") as file:
        while block := file.read(BLOCK):
            found.update(block)
    return found.hexdigest()


def original_name(sha256: str) -> str:
    return f"{sha256[:2]}/{sha256}"


def keep_original(path: Path, sha256: str) -> None:
    """Once for all units: a file is its digest."""
    store, name = storages["originals"], original_name(sha256)
    if not _is_whole(store, name, sha256):
        with path.open("rb") as file:
            store.save(name, File(file))


def _is_whole(store: Storage, name: str, sha256: str) -> bool:
    """What a storage kept by half in former times must not pass for the file."""
    try:
        with store.open(name) as file:
            return hashlib.file_digest(file, "sha256").hexdigest() == sha256
    except (FileNotFoundError, FilesDamaged):
        return False


def keep_pictures(made: Derived) -> list[PhotoDerivative]:
    """Rows for the derived files, not yet saved, whose files are stored by now."""
    group = uuid4().hex
    return [_kept(file, f"{group[:2]}/{group}/{file.width}.webp") for file in made.files]


def _kept(file, name):
    with file.path.open("rb") as content:
        storages["pictures"].save(name, File(content))
    return PhotoDerivative(width=file.width, height=file.height, media_type=file.media_type,
                           path=name)


@contextmanager
def opened_original(photo: Photo) -> Iterator[Path]:
    """The original as a file of its own on this machine, wherever it is stored."""
    with workshop() as folder:
        path = folder / "original"
        with storages["originals"].open(original_name(photo.sha256)) as source, \
                path.open("wb") as target:
            shutil.copyfileobj(source, target, BLOCK)
        yield path
