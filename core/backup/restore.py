"""From a bag into an empty place: every byte is checked before the first is written."""
from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib.sessions.models import Session
from django.core.cache import cache
from django.core.files import File
from django.core.files.storage import storages
from django.core.management import call_command
from django.db import connection

from core.audit.check import check_log
from core.audit.models import Entry
from core.backup import bags, databases
from core.backup.back_up import LISTED
from core.backup.bags import Progress
from core.backup.erasures import repeat_erasures
from core.backup.state import FORMAT, unknown_migrations
from core.backup.stored_files import Stored, stored_files
from core.secret import fingerprint


class NotRestored(Exception):
    """It cannot be restored here; the message says why and what to do. Nothing was changed, unless
    it says so."""


@dataclass(frozen=True)
class Restored:
    files: int
    rows: int
    erased: int             # erasures that were done again
    to_erase: list[str]     # and those that could not be
    same_key: bool          # whether second factors can be read with the key of these settings


def restore(bag: Path, say: Progress, erasures: Path) -> Restored:
    """Raises Damaged before anything is written, NotRestored where the place is not empty."""
    bags.check_bag(bag, say)
    state = json.loads((bag / "data/state.json").read_text())
    require_fit(state)
    require_empty()
    files = _put_files(bag, say)
    databases.put_back(bag / databases.NAMES[connection.vendor], say)
    rows = _require_same(state)
    call_command("migrate", verbosity=0, interactive=False)
    _require_sound_log(state["witness"])
    end_what_was_open()
    return Restored(files, rows, *repeat_erasures(erasures),
                    fingerprint(str(settings.SECRET_KEY)) == state["key_fingerprint"])


def require_fit(state: dict[str, Any]) -> None:
    if state["format"] != FORMAT:
        raise NotRestored("This backup is of a later release. Take that one's code.")
    if state["engine"] != connection.vendor:
        raise NotRestored(f"This backup is of {state['engine']} and the database here is "
                          f"{connection.display_name}. Set DATABASE_URL to one of its kind.")
    if later := unknown_migrations(state["migrations"]):
        raise NotRestored(f"This backup is of a later release: {later[0]} is not known here. Take "
                          f"the code that wrote it{_named(state['code'])}.")


def _named(code):
    return f", commit {code[:12]}" if code else ""


def require_empty() -> None:
    if not databases.is_empty():
        raise NotRestored("The database is not empty. Make a new one, or set "
                          "UNDERPLATE_DATA_DIR to a new folder: nothing is ever written over. A "
                          "database that a restore left half done can be dropped.")
    if found := next(iter(stored_files()), None):
        raise NotRestored(f"The storage “{found.alias}” is not empty: it has {found.name}. Restore "
                          "into a new data folder or a new bucket. What a restore that was broken "
                          "off left here can be removed.")


def _put_files(bag, say):
    lines = (bag / LISTED).read_text("utf-8").splitlines()
    for number, line in enumerate(lines, 1):
        file = Stored(*json.loads(line))
        with (bag / file.path).open("rb") as source:
            if storages[file.alias].save(file.name, File(source)) != file.name:
                raise NotRestored(f"The storage “{file.alias}” has {file.name} already. What was "
                                  "put back so far stays; restore into an empty place.")
        say("Put back files", number, len(lines))
    return len(lines)


def _require_same(state):
    """Rows in all, each table as it was."""
    with connection.cursor() as cursor:
        found = databases.contents(cursor)
    for table, was in state["contents"].items():
        if found.get(table) != was:
            raise NotRestored(f"The table {table} is not what was backed up. The database here is "
                              "half restored; drop it, and try again with the same release.")
    return sum(was[0] for was in found.values())


def _require_sound_log(witness):
    fault, *_ = check_log()
    if fault:
        raise NotRestored(f"Entry {fault.sequence} of the log {fault.reason}: it was like this "
                          "when the backup was made.")
    if witness:
        number, _, hash = witness.partition(":")
        if not Entry.objects.filter(sequence=number, hash=hash).exists():
            raise NotRestored("The log does not end where the backup says it ends.")


def end_what_was_open() -> None:
    """Nobody is signed in by a session that may have been ended since."""
    Session.objects.all().delete()
    cache.clear()
