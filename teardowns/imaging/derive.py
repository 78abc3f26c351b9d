"""From an original to its derivatives: walked here, decoded in a limited process, walked again."""
import json
import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from threading import BoundedSemaphore

from . import heic
from .burn_in import Box
from .job import Job, derived_sizes
from .limits import WALL_SECONDS, WIDTHS
from .refusals import Refused, in_decoding
from .walk import Walk, walk

__all__ = ["WIDTHS", "Derived", "DerivedFile", "derive"]

MEDIA_TYPE = "image/webp"
FORMATS = {"image/jpeg": "JPEG", "image/png": "PNG", "image/webp": "WEBP", "image/avif": "AVIF",
           "image/heic": heic.FORMAT}
ROOT = Path(__file__).resolve().parents[2]
START = "import sys; sys.path.insert(0, sys.argv[1]); " \
        "from teardowns.imaging.child import main; main(sys.argv[2])"
LONGEST_JOB = 100_000                # bytes; the kernel takes 128 kB in one argument
CHILDREN = BoundedSemaphore(os.cpu_count() or 1)     # at most one a core


@dataclass(frozen=True)
class DerivedFile:
    width: int                       # px
    height: int
    media_type: str
    path: Path
    byte_size: int


@dataclass(frozen=True)
class Derived:
    walk: Walk                       # of the original
    files: tuple[DerivedFile, ...]   # smallest first
    perceptual_hash: int             # signed, 64 bit


def derive(path: Path, folder: Path, covered: Sequence[Box] = ()) -> Derived:
    """Writes folder/<width>.webp for every size; raises Refused and leaves nothing behind.

    A disk that is full or cannot be written is an OSError: no fault of the picture.
    `covered` are boxes (x, y, width, height) in pixels as shown, painted over before scaling.
    """
    with open(path, "rb") as file:
        seen = walk(file, os.fstat(file.fileno()).st_size)
        job = _job(seen, covered)
        with tempfile.TemporaryFile() as pictures:
            said = _run(file, pictures, job)
            files = _kept(pictures, said["lengths"], job.sizes, Path(folder))
    return Derived(seen, files, said["perceptual_hash"])


def _job(seen, covered):
    return Job(
        format=FORMATS[seen.media_type], size=seen.stored_size, orientation=seen.orientation,
        sizes=derived_sizes(seen.width, seen.height), pieces=seen.pieces, profile=seen.profile,
        profile_packed=seen.profile_packed, covered=tuple(tuple(box) for box in covered))


def _run(file, pictures, job):
    """What the child says of its work; raises Refused when it gave up or had to be stopped."""
    text = job.to_json()
    if len(text) > LONGEST_JOB:
        raise in_decoding("too_complex")
    with tempfile.TemporaryFile() as words, CHILDREN:
        status = _wait(subprocess.Popen(
            [sys.executable, "-I", "-c", START, str(ROOT), text], stdin=file, stdout=pictures,
            stderr=words, env={}, cwd="/", start_new_session=True))
        words.seek(0)
        last = words.read(100_000).rpartition(b"\n")[2]
    if status < 0:                   # ended by a signal: processor time, or a decoder that crashed
        stopped = -status in (signal.SIGKILL, signal.SIGXCPU)
        raise in_decoding("decode_timeout" if stopped else "decode_failed")
    return _answer(status, last)


def _wait(process):
    try:
        return process.wait(WALL_SECONDS)
    except BaseException as error:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        if isinstance(error, subprocess.TimeoutExpired):
            raise in_decoding("decode_timeout") from error
        raise


def _answer(status, text):
    try:
        said = json.loads(text)
    except ValueError:
        said = {}
    if "errno" in said:
        raise OSError(said["errno"], os.strerror(said["errno"]))
    if status or "lengths" not in said:
        raise in_decoding(said.get("refused", "decode_failed"))
    return said


def _kept(pictures, lengths, sizes, folder):
    """The derivatives as files of their own; none stays if one of them is not as ordered."""
    written = []
    starts = [sum(lengths[at + 1:]) for at in range(len(lengths))]       # the largest came first
    try:
        for start, length, size in zip(starts, lengths, sizes, strict=True):
            path = folder / f"{size[0]}.webp"
            written.append(path)
            pictures.seek(start)
            path.write_bytes(pictures.read(length))
            _check_derived(path, length, size)
    except BaseException:
        for path in written:
            path.unlink(missing_ok=True)
        raise
    return tuple(DerivedFile(width, height, MEDIA_TYPE, path, length)
                 for path, (width, height), length in zip(written, sizes, lengths, strict=True))


def _check_derived(path, length, size):
    """Our own output goes the way of any file: the right kind and size, and nothing else in it."""
    with open(path, "rb") as file:
        try:
            seen = walk(file, length)
        except Refused as error:
            raise in_decoding("decode_failed") from error
    if (seen.media_type, (seen.width, seen.height), seen.removed) != (MEDIA_TYPE, tuple(size), ()):
        raise in_decoding("decode_failed")
