"""Files in a bucket that are whole or not there, however slow or wrong its server is.

Each object bears the SHA-256 of what was sent. It is read back before it counts as stored, and
compared whenever it is read: what is broken is never named by a row and never shown to anybody.
What fails there is an OSError, as of a disk.
"""
from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from threading import BoundedSemaphore, local

from boto3.exceptions import Boto3Error
from botocore.config import Config
from botocore.exceptions import BotoCoreError, ClientError
from django.core.files.base import File
from s3transfer.exceptions import RetriesExceededError
from storages.backends.s3 import S3File, S3Storage
from storages.utils import clean_name
from urllib3.exceptions import HTTPError

from core.outages import FilesAway, FilesDamaged

DIGEST = "sha256"                   # the name among the data about an object
CONNECTED, ANSWERED, TRIES = 3, 10, 2           # s, s until the next byte, …
# At once in a process, of the 16 threads that it has: who waits for files leaves threads to those
# who need none. Whoever finds no place is told to come back.
MOST_AT_ONCE, LONGEST_FOR_A_PLACE = 4, 1.0      # …, s
FAILURES = (BotoCoreError, ClientError, Boto3Error, RetriesExceededError, HTTPError)
places, here = BoundedSemaphore(MOST_AT_ONCE), local()


@contextmanager
def asked() -> Iterator[None]:
    """The server is asked meanwhile; within, once more is the same place."""
    if getattr(here, "asks", False):
        yield
        return
    if not places.acquire(timeout=LONGEST_FOR_A_PLACE):
        raise FilesAway("Too many wait for the object storage.")
    here.asks = True
    try:
        yield
    except FAILURES as error:
        raise FilesAway("The object storage does not answer as it should.") from error
    finally:
        here.asks = False
        places.release()


class CheckedFile(S3File):
    """Its bytes are there as a whole, and compared, before the first one is given on."""

    def _get_file(self):
        if self._file is not None or "r" not in self._mode:
            return super()._get_file()
        with asked():
            file = super()._get_file()
        sent = self.obj.metadata.get(DIGEST)
        found = hashlib.file_digest(file, "sha256").hexdigest()
        file.seek(0)
        if sent and sent != found:
            self.close()
            raise FilesDamaged(f"{self.name} is not what was sent.")
        return file

    file = property(_get_file, S3File._set_file)


class ObjectStorage(S3Storage):
    def get_default_settings(self):
        return super().get_default_settings() | {"client_config": Config(
            connect_timeout=CONNECTED, read_timeout=ANSWERED,
            retries={"mode": "standard", "total_max_attempts": TRIES})}

    def _open(self, name, mode="rb"):
        name = self._normalize_name(clean_name(name))
        with asked():
            try:
                return CheckedFile(name, mode, self)
            except ClientError as error:
                if error.response["ResponseMetadata"]["HTTPStatusCode"] == 404:
                    raise FileNotFoundError(f"There is no file {name}.") from error
                raise

    def _save(self, name, content):
        with asked():
            name = super()._save(name, content)
            with self.open(name) as kept:
                if digest(kept) != digest(content):
                    raise FilesDamaged(f"{name} was not stored as it was sent.")
        return name

    def _get_write_parameters(self, name, content=None):
        said = super()._get_write_parameters(name, content)
        if content is not None:
            said["Metadata"] = said.get("Metadata", {}) | {DIGEST: digest(content)}
        return said

    def delete(self, name):
        with asked():
            super().delete(name)

    def exists(self, name):
        with asked():
            return super().exists(name)

    def listdir(self, name):
        with asked():
            return super().listdir(name)

    def size(self, name):
        with asked():
            return super().size(name)

    def get_modified_time(self, name):
        with asked():
            return super().get_modified_time(name)


def digest(file: File) -> str:
    found = hashlib.sha256()
    for chunk in file.chunks():
        found.update(chunk)
    return found.hexdigest()
