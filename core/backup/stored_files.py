"""Files of the private storages, listed with size and date in few requests, and copied."""
from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.files.storage import Storage, storages

from core.backup.bags import BLOCK


@dataclass(frozen=True)
class Stored:
    alias: str
    name: str
    size: int           # bytes
    modified: str       # as the storage says it: equal or not, nothing else is asked of it

    @property
    def path(self) -> str:
        return f"data/storages/{self.alias}/{self.name}"


def private_storages() -> list[str]:
    """Aliases of all storages that hold data: the collected static files can be made anew."""
    return sorted(set(settings.STORAGES) - {"staticfiles"})


def stored_files() -> list[Stored]:
    """Every file of every private storage. What comes meanwhile is of the next backup."""
    return sorted((file for alias in private_storages() for file in _listed(alias)),
                  key=lambda file: (file.alias, file.name))


def _listed(alias: str) -> Iterator[Stored]:
    store: Any = storages[alias]
    if (bucket := getattr(store, "bucket", None)) is not None:
        return _in_bucket(alias, bucket, store.location.strip("/") + "/")
    return _in_folder(alias, Path(store.path("")))


def _in_bucket(alias, bucket, prefix):
    """A thousand an answer, with all that is asked of each."""
    for found in bucket.objects.filter(Prefix=prefix):
        yield Stored(alias, found.key.removeprefix(prefix), found.size,
                     found.last_modified.isoformat())


def _in_folder(alias, root, folder=""):
    try:
        entries = list(os.scandir(root / folder))
    except FileNotFoundError:
        return
    for entry in entries:
        name = f"{folder}{entry.name}"
        if entry.is_dir(follow_symlinks=False):
            yield from _in_folder(alias, root, f"{name}/")
        elif not entry.name.startswith("."):         # such are being written
            try:
                found = entry.stat(follow_symlinks=False)
            except FileNotFoundError:
                continue
            yield Stored(alias, name, found.st_size, str(found.st_mtime_ns))


def copy_out(file: Stored, to: Path) -> str | None:
    """Its SHA-256; None where the file went away since it was listed."""
    store: Storage = storages[file.alias]
    to.parent.mkdir(parents=True, exist_ok=True)
    found = sha256()
    try:
        with store.open(file.name) as source, to.open("xb") as copy:
            while block := source.read(BLOCK):
                found.update(block)
                copy.write(block)
    except FileNotFoundError:
        to.unlink(missing_ok=True)
        return None
    return found.hexdigest()
