"""The settings under which SQLite keeps what it acknowledged."""
import sqlite3

from django.conf import settings
from django.db import connection

from core import sqlite
from core.doctor.findings import examines, fault, good, warning

FULL = 2            # PRAGMA synchronous
USE_PACKAGE = ("Install the package pysqlite3 of requirements.txt into the site's own Python, "
               "or use PostgreSQL.")
AS_SHIPPED = ("Take what core/sqlite.py ships: no other program may have opened the file with "
              "settings of its own, and DATABASE_URL carries no options.")


def pragma(name):
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA {name}")
        return cursor.fetchone()[0]


@examines("sqlite", asks_database=True)
def engine_loses_nothing():
    if connection.vendor != "sqlite":
        return
    if sqlite.loses_writes(sqlite3.sqlite_version_info):
        yield warning(f"SQLite {sqlite3.sqlite_version} can lose committed data with a write-ahead "
                      "log; the rollback journal is used, which is safe and slower.", USE_PACKAGE)
    else:
        yield good(f"SQLite {sqlite3.sqlite_version} has no known way to lose what it committed.")


@examines("sqlite", asks_database=True)
def commits_reach_the_disk():
    if connection.vendor != "sqlite":
        return
    if (level := pragma("synchronous")) < FULL:
        yield fault(f"A commit may be lost with the power: PRAGMA synchronous is {level}, not FULL "
                    f"({FULL}).", AS_SHIPPED)
    else:
        yield good("Each commit reaches the disk before it is acknowledged (synchronous FULL).")


@examines("sqlite", asks_database=True)
def journal_fits_the_engine():
    if connection.vendor != "sqlite":
        return
    mode = pragma("journal_mode").lower()
    wanted = "delete" if sqlite.loses_writes(sqlite3.sqlite_version_info) else "wal"
    if mode == wanted or mode == "memory":      # a database in memory has no other
        yield good(f"Journal: {mode}.")
    else:
        yield fault(f"The journal is {mode}; {wanted} is what fits this engine.", AS_SHIPPED)


@examines("sqlite", asks_database=True)
def writers_wait_their_turn():
    if connection.vendor != "sqlite":
        return
    options = settings.DATABASES["default"].get("OPTIONS", {})
    if options.get("transaction_mode") != "IMMEDIATE":
        yield fault("Writers do not wait their turn: transactions do not begin IMMEDIATE, so many "
                    "answer “database is locked”.", AS_SHIPPED)
    else:
        yield good(f"Writers wait their turn, up to {options.get('timeout')} s.")


@examines("sqlite", asks_database=True)
def the_file_is_whole():
    """A quick look; `PRAGMA integrity_check` and `check_backup` look longer."""
    if connection.vendor != "sqlite":
        return
    if (said := pragma("quick_check")) != "ok":
        yield fault(f"The database file is damaged: {said}",
                    "Stop web and worker, keep the file, and restore the newest backup.")
    else:
        yield good("The database file is whole (quick_check).")
