"""Room on the disk, and who can get at the data folder."""
import os
import shutil
import stat
from pathlib import Path

from django.conf import settings

from core.doctor.findings import examines, fault, good, warning

MB, GB = 1_000_000, 1_000_000_000
LOW, TOO_LOW = 2 * GB, 300 * MB


@examines("disk")
def room_is_left():
    free = shutil.disk_usage(settings.DATA_DIR).free
    said = f"{free / GB:.1f} GB are free where the data folder lies."
    if free < TOO_LOW:
        yield fault(said, "Make room at once: without it nothing can be written. Old backups, "
                          "core dumps and logs of the system are what usually can go.")
    elif free < LOW:
        yield warning(said, f"Make room: below {TOO_LOW // MB} MB writing fails.")
    else:
        yield good(said)


@examines("disk")
def names_are_left():
    """A disk may be full of small files while bytes are free."""
    found = os.statvfs(settings.DATA_DIR)
    if found.f_files and found.f_favail < 0.02 * found.f_files:
        yield warning(f"Only {found.f_favail} more files fit on the disk of the data folder.",
                      "Remove small files that nothing needs, or use a file system without that "
                      "limit.")


@examines("disk")
def data_folder_is_writable():
    probe = Path(settings.DATA_DIR) / f".doctor-{os.getpid()}"
    try:
        probe.write_bytes(b"x")
        probe.unlink()
    except OSError as error:
        yield fault(f"Nothing can be written to {settings.DATA_DIR}: {error.strerror}.",
                    "Give the folder to the account that runs the site, on a disk mounted for "
                    "writing.")
    else:
        yield good(f"{settings.DATA_DIR} can be written to.")


@examines("disk")
def data_folder_is_private():
    open_to_all = [path for path in (Path(settings.DATA_DIR), Path(settings.DATA_DIR, "secret-key"))
                   if path.exists() and stat.S_IMODE(path.stat().st_mode) & 0o007]
    for path in open_to_all:
        yield warning(f"Every account of this machine can get at {path}.", f"chmod o-rwx {path}")
    if not open_to_all:
        yield good("Other accounts of this machine cannot get at the data folder.")
