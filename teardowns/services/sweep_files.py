"""Find stored files that no row names: what a crash between file and row left behind."""
from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from django.conf import settings
from django.core.files.storage import Storage, storages
from django.utils import timezone

from teardowns.models import (
    Photo,
    PhotoDerivative,
    PhotoUpload,
    Publication,
    Recording,
    RecordingUpload,
)

from .local_copies import ASIDE
from .photo_files import original_name
from .receive_upload import KEPT, path_of

YOUNG = timedelta(days=1)        # its row may be on its way


@dataclass(frozen=True)
class Swept:
    removed: int                 # files that nothing named, and uploads that nobody went on with
    missing: tuple[str, ...]     # files that a row names and that are not there: look into it


def sweep_files() -> Swept:
    """Remove what nothing names and is older than a day; name what is missing. Safe to repeat."""
    removed, missing = 0, []
    for alias, named, name_of in named_files():
        store = storages[alias]
        there = list(files_below(store))
        for name in there:
            if name_of(name) not in named and _is_old(store.get_modified_time(name).timestamp()):
                store.delete(name)
                removed += 1
        missing += [f"{alias}: {name}" for name in sorted(named - set(map(name_of, there)))]
    return Swept(removed + _incoming() + _half_copies(), tuple(missing))


def named_files() -> Iterator[tuple[str, set[str], Callable[[str], str]]]:
    """Storage, the names that rows have, and which of these a file belongs to."""
    digests = [*Photo.objects.values_list("sha256", flat=True),
               *Recording.objects.filter(received=True).values_list("sha256", flat=True)]
    yield "originals", {original_name(each) for each in digests}, str
    yield "pictures", set(PhotoDerivative.objects.values_list("path", flat=True)), str
    yield "channels", _channels(), lambda name: name.rpartition("/")[0]


def _channels() -> set[str]:
    """Of recordings as they are, and as each version has them."""
    named = set(Recording.objects.exclude(channels="").values_list("channels", flat=True))
    frozen = Publication.objects.order_by("pk").values_list("frozen__recording", flat=True)
    for rows in frozen.iterator():
        named |= {row["fields"]["channels"] for row in rows or () if row["fields"]["channels"]}
    return named


def files_below(store: Storage, folder: str = "") -> Iterator[str]:
    """Name of every file below a folder."""
    try:
        folders, files = store.listdir(folder)
    except FileNotFoundError:
        return
    yield from (f"{folder}{name}" for name in files)
    for name in folders:
        yield from files_below(store, f"{folder}{name}/")


def _incoming() -> int:
    """Uploads that nobody went on with, and folders in which nobody works any more."""
    kept = {path_of(upload).name for uploads in (PhotoUpload, RecordingUpload)
            for upload in _fresh(uploads)}
    return _swept(path for path in _entries(settings.INCOMING) if path.name not in kept)


def _fresh(uploads):
    stale = uploads.objects.filter(changed_at__lt=timezone.now() - KEPT)
    fresh = list(uploads.objects.exclude(pk__in=stale))
    stale.delete()
    return fresh


def _half_copies() -> int:
    """Copies that a crash broke off; whole ones have room made for them when there is need."""
    return _swept(path for path in _entries(settings.COPIES) if path.name.startswith(ASIDE))


def _swept(paths) -> int:
    old = [path for path in paths if _is_old(path.stat().st_mtime)]
    for path in old:
        if path.is_dir():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink(missing_ok=True)
    return len(old)


def _entries(folder: Path) -> list[Path]:
    return list(folder.iterdir()) if folder.is_dir() else []


def _is_old(modified: float) -> bool:
    return modified < (timezone.now() - YOUNG).timestamp()
