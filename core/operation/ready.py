"""Whether this process can serve: its database answers, has the shape of the code, files are read.

Anybody may ask, so what was found holds for some seconds: asking often costs nothing.
"""
from __future__ import annotations

import logging
from functools import cache
from threading import Lock
from time import monotonic

from django.conf import settings
from django.core.files.storage import storages
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor

from core.doctor.migrations import unknown

logger = logging.getLogger(__name__)
HOLDS = 3.0         # s
_lock = Lock()
_found: tuple[float, tuple[str, ...]] | None = None


def lacking() -> tuple[str, ...]:
    """What is missing to serve, of “database”, “migrations”, “storage”; () when ready."""
    global _found
    with _lock:
        if _found is None or monotonic() - _found[0] > HOLDS:
            _found = monotonic(), look()
            for what in _found[1]:
                logger.error("Not ready: %s", what)
        return _found[1]


def look() -> tuple[str, ...]:
    try:
        behind = _is_behind()
    except DatabaseError:
        return ("database",)
    return ("migrations",) * behind + ("storage",) * (not _files_are_read())


def _is_behind():
    """A table read at each look: a database that was restored may be behind what it was."""
    executor = MigrationExecutor(connection)
    if later := unknown(executor.loader):
        _say_once(later[-1])
    return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


@cache
def _say_once(migration):
    """A release that was put back runs on, and whoever looks knows (DEVELOPERS.md, Upgrade)."""
    logger.warning("The database is newer than this code: %s is not known here", migration)


def _files_are_read():
    """One question to one storage: all lie in the same place."""
    try:
        storages["originals" if "originals" in settings.STORAGES else "default"].exists("ready")
    except Exception:       # each backend has errors of its own
        return False
    return True
