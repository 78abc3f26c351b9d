"""Make one backup: the database first, then the files, which are stored before rows name them."""
from __future__ import annotations

import fcntl
import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from django.db import connection
from django.utils import timezone

from core.backup import bags
from core.backup.bags import Progress, digest_of
from core.backup.databases import NAMES, copied
from core.backup.erasures import keep_erasures
from core.backup.state import state_of
from core.backup.stored_files import Stored, copy_out, stored_files

LISTED = "data/files.jsonl"         # alias, name, size, date: what tells that a file is unchanged


class Busy(Exception):
    """Another backup into this folder is running."""


@dataclass(frozen=True)
class Made:
    bag: Path
    digest: str         # vouches for every byte; to be noted down elsewhere
    witness: str        # end of the log
    files: int
    copied: int         # of these, files that the bag before did not have
    gone: int           # files that went away between list and copy


def back_up(folder: Path, say: Progress, *, whole: bool = False) -> Made:
    """A bag below the folder. Whole: every file is read again, though the bag before has it."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    with _alone(folder):
        _drop_unfinished(folder)
        before = None if whole else bags.newest_bag(folder)
        name = bags.bag_name(timezone.now())
        part = folder / f".{name}.part"
        (part / bags.PAYLOAD).mkdir(parents=True, mode=0o700)
        payload, state = _database(part, say)
        files, digests, fresh, gone = _files(part, before, say)
        payload |= digests
        payload |= _written(part, "data/state.json", json.dumps(state, indent=1))
        payload |= _written(part, LISTED, "".join(f"{_line(file)}\n" for file in files))
        digest = bags.write_tags(part, payload, _info(part, payload))
        os.sync()
        part.rename(folder / name)
        keep_erasures(folder)
        return Made(folder / name, digest, state["witness"], len(files), fresh, gone)


def drop_old(folder: Path, keep: int) -> list[Path]:
    """Remove all but the newest bags; files that those share with them stay."""
    old = bags.bags(folder)[:-keep]
    for bag in old:
        shutil.rmtree(bag)
    return old


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    with (folder / ".lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise Busy(f"Another backup into {folder} is running.") from error
        yield


def _drop_unfinished(folder):
    for part in folder.glob(".*.part"):
        shutil.rmtree(part)


def _database(part, say):
    name = NAMES[connection.vendor]
    with copied(part / name, say) as cursor:
        state = state_of(cursor)
    return {name: digest_of(part / name)}, state


def _files(part, before, say):
    """(files, digest by path, how many were copied, how many went away)"""
    known = _known(before)
    kept, digests, fresh, gone = [], {}, 0, 0
    listed = stored_files()
    for number, file in enumerate(listed, 1):
        digest = _linked(file, part, before, known)
        if digest is None:
            digest = copy_out(file, part / file.path)
            fresh += digest is not None
        if digest is None:
            gone += 1
        else:
            kept.append(file)
            digests[file.path] = digest
        say("Kept files", number, len(listed))
    return kept, digests, fresh, gone


def _known(before) -> dict[str, str]:
    """Digest by line of the list of the bag before."""
    if before is None:
        return {}
    digests = bags.read_manifest(before)
    lines = (before / LISTED).read_text("utf-8").splitlines()
    return {line: digests[Stored(*json.loads(line)).path] for line in lines}


def _linked(file, part, before, known):
    """One more name for the same bytes, and their digest; None where the bag before has them not.
    """
    digest = known.get(_line(file))
    if digest is None:
        return None
    to = part / file.path
    to.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(before / file.path, to)
    except OSError:             # another file system, too many links, or the file is gone
        to.unlink(missing_ok=True)
        return None
    return digest


def _line(file):
    return json.dumps([file.alias, file.name, file.size, file.modified])


def _written(part, name, text):
    (part / name).write_text(text, "utf-8")
    return {name: digest_of(part / name)}


def _info(part, payload):
    size = sum((part / name).stat().st_size for name in payload)
    return {"Bagging-Date": timezone.now().date().isoformat(),
            "External-Description": "Backup of Underplate",
            "Payload-Oxum": f"{size}.{len(payload)}"}
