"""Files on the local disk that are whole or not there: written aside, synced, then named."""
import os
import tempfile
from pathlib import Path

from django.core.files.storage import FileSystemStorage


class DurableStorage(FileSystemStorage):
    """A file that is acknowledged survives a power cut; a broken write leaves no half a file."""

    def _save(self, name, content):
        place = Path(self.path(name))
        place.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=place.parent, prefix=".", delete=False) as aside:
            try:
                for chunk in content.chunks():
                    aside.write(chunk)
                aside.flush()
                os.fsync(aside.fileno())
                os.chmod(aside.name, 0o600)
                os.replace(aside.name, place)
            except BaseException:
                os.unlink(aside.name)
                raise
        _sync(place.parent)
        return name


def _sync(folder):
    """The name of a file is an entry of its folder, which has to reach the disk as well."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
