"""Find stored files that no row names: what a crash between file and row left behind."""
from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from django.conf import settings
from django.core.files.storage import Storage, storages
from django.utils import timezone

from teardowns.models import Photo, PhotoDerivative, PhotoUpload

from .photo_files import original_name
from .receive_upload import KEPT, path_of

YOUNG = timedelta(days=1)        # its row may be on its way


@dataclass(frozen=True)
class Swept:
    removed: int                 # files that nothing named, and uploads that nobody went on with
    missing: tuple[str, ...]     # files that a row names and that are not there: look into it


def sweep_photo_files() -> Swept:
    """Remove what nothing names and is older than a day; name what is missing. Safe to repeat."""
    originals = {original_name(each) for each in
                 Photo.objects.values_list("sha256", flat=True).distinct()}
    pictures = set(PhotoDerivative.objects.values_list("path", flat=True))
    removed, missing = 0, []
    for alias, named in (("originals", originals), ("pictures", pictures)):
        store = storages[alias]
        there = set(_files(store))
        for name in there - named:
            if store.get_modified_time(name) < timezone.now() - YOUNG:
                store.delete(name)
                removed += 1
        missing += [f"{alias}: {name}" for name in sorted(named - there)]
    return Swept(removed + _incoming(), tuple(missing))


def _files(store: Storage, folder: str = "") -> Iterator[str]:
    """Name of every file below a folder."""
    try:
        folders, files = store.listdir(folder)
    except FileNotFoundError:
        return
    yield from (f"{folder}{name}" for name in files)
    for name in folders:
        yield from _files(store, f"{folder}{name}/")


def _incoming() -> int:
    stale = PhotoUpload.objects.filter(changed_at__lt=timezone.now() - KEPT)
    kept = {path_of(upload).name for upload in PhotoUpload.objects.exclude(pk__in=stale)}
    stale.delete()
    old = [path for path in _entries(settings.INCOMING) if path.name not in kept and _is_old(path)]
    for path in old:
        if path.is_dir():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink(missing_ok=True)
    return len(old)


def _entries(folder: Path) -> list[Path]:
    return list(folder.iterdir()) if folder.is_dir() else []


def _is_old(path: Path) -> bool:
    return path.stat().st_mtime < (timezone.now() - YOUNG).timestamp()
