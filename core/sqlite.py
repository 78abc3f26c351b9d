"""The SQLite engine that Django gets: a newer one than the system's, where it is installed.

Every SQLite from 3.7.0 to 3.51.2 can lose committed data when two connections write and
checkpoint a write-ahead log at one instant (fixed in 3.51.3, and in 3.50.7 and 3.44.6).
"""
import sys

FIXED_BRANCHES = {(3, 44): (3, 44, 6), (3, 50): (3, 50, 7)}
FIXED = (3, 51, 3)

# Waiting for the one writer works only if the write lock is taken at BEGIN.
OPTIONS = {"timeout": 20, "transaction_mode": "IMMEDIATE"}
WAL = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA journal_size_limit=67108864;"
ROLLBACK = "PRAGMA journal_mode=DELETE; PRAGMA synchronous=FULL;"


def use_bundled_engine():
    """Let `import sqlite3` mean the engine that the pysqlite3 wheel carries."""
    try:
        import pysqlite3
    except ImportError:        # no wheel for this platform: the start-up check says what it means
        return
    sys.modules["sqlite3"] = pysqlite3
    sys.modules["sqlite3.dbapi2"] = pysqlite3.dbapi2


def loses_writes(version):
    """Whether an engine of this version, a tuple, has the write-ahead-log reset race."""
    return (3, 7, 0) <= version < FIXED_BRANCHES.get(version[:2], FIXED)


def options(version):
    """Connection options: write-ahead log, or the rollback journal on an affected engine."""
    return OPTIONS | {"init_command": ROLLBACK if loses_writes(version) else WAL}
