"""Code as it was released once, databases that it filled, and what stands in their tables."""
from __future__ import annotations

import hashlib
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from tests.drills.one_host import Postgres, Site
from tests.drills.two_hosts_servers import ROOT

# The last commit of each shape of the database that whole code ran on, the oldest first. Who adds
# a migration names here the commit before it.
RELEASES = {
    "33985c0": "photos and logs", "a09a802": "moderation and versions",
    "a7f2b43": "finding and comparing", "4d67ce2": "languages", "401e231": "packed listing",
    "f042524": "language of printouts", "0454924": "letters that wait",
    "7fe6461": "digests of uploads", "b6830b4": "loads held and lost"}
# Made anew, or added to, by what runs after a migration; or forgotten at will.
MOVING = {"django_migrations", "django_content_type", "auth_permission", "django_q_schedule",
          "django_q_ormq", "django_q_task", "django_session", "cache", "teardowns_listingpack",
          "teardowns_listingclock", "teardowns_searchtext"}


def unpacked(commit: str, folder: Path) -> Path:
    place = folder / f"code-{commit}"
    place.mkdir()
    archive = subprocess.Popen(["git", "-C", str(ROOT), "archive", commit], stdout=subprocess.PIPE)
    subprocess.run(["tar", "x", "-C", str(place)], stdin=archive.stdout, check=True)
    if archive.wait():
        raise SystemExit(f"There is no commit {commit} here: a drill of releases needs the history "
                         "of the code.")
    return place


@contextmanager
def old_site(commit: str, units: int, server: Postgres | None) -> Iterator[Site]:
    """A site that runs that code, its database made and filled by it; gone afterwards."""
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))      # what was started ends with us
    folder = Path(tempfile.mkdtemp(prefix="drill-"))
    made = Site(folder, database_of(server, commit) if server else "")
    made.root = unpacked(commit, folder)
    try:
        (folder / "data").mkdir(mode=0o700)
        made.manage("migrate", "-v0")
        made.manage("collectstatic", "--no-input", "-v0")
        if (made.root / "tests" / "bench" / "many_units.py").exists():
            made.run("-m", "tests.bench.many_units", str(units))
        else:
            made.manage("demo", "--no-serve", "--no-pictures")
        yield made
    finally:
        made.end()
        shutil.rmtree(folder, ignore_errors=True)


def database_of(server: Postgres, commit: str) -> str:
    import psycopg

    with psycopg.connect(server.url, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE release_{commit}")
    return f"{server.url.rpartition('/')[0]}/release_{commit}"


@contextmanager
def connected(made: Site) -> Iterator[Any]:
    """A connection that commits each statement."""
    if url := made.environment.get("DATABASE_URL"):
        import psycopg

        with psycopg.connect(url, autocommit=True) as connection:
            yield connection
        return
    path = Path(made.environment["UNDERPLATE_DATA_DIR"]) / "underplate.sqlite3"
    with closing(sqlite3.connect(path, timeout=60, isolation_level=None)) as connection:
        yield connection


def tables_of(made: Site) -> dict[str, list[str]]:
    """Table → its columns, without what is not content."""
    with connected(made) as connection:
        if made.environment.get("DATABASE_URL"):
            found = connection.execute(
                "SELECT table_name, column_name FROM information_schema.columns JOIN "
                "information_schema.tables USING (table_schema, table_name) WHERE table_schema = "
                "'public' AND table_type = 'BASE TABLE' ORDER BY 1, 2").fetchall()
        else:
            found = connection.execute(
                "SELECT t.name, c.name FROM pragma_table_list t, pragma_table_info(t.name) c "
                "WHERE t.schema = 'main' AND t.type = 'table' ORDER BY 1, 2").fetchall()
    tables: dict[str, list[str]] = {}
    for table, column in found:
        if table not in MOVING and not table.startswith(("search_", "sqlite_")):
            tables.setdefault(table, []).append(column)
    return tables


def contents_of(made: Site, tables: dict[str, list[str]]) -> dict[str, tuple[int, int]]:
    """Table → how many rows, and a digest of them that does not hang on their order."""
    found = {}
    with connected(made) as connection:
        for table, columns in tables.items():
            named = ", ".join(f'"{column}"' for column in columns)
            count = total = 0
            for row in connection.execute(f'SELECT {named} FROM "{table}"'):
                plain = [bytes(each) if isinstance(each, memoryview) else each for each in row]
                total += int.from_bytes(hashlib.sha256(repr(plain).encode()).digest()[:16])
                count += 1
            found[table] = count, total % 2 ** 128
    return found


def applied(made: Site) -> int:
    with connected(made) as connection:
        return connection.execute("SELECT count(*) FROM django_migrations").fetchone()[0]


def public_unit(made: Site) -> int | None:
    with connected(made) as connection:
        found = connection.execute(
            "SELECT min(id) FROM teardowns_unit WHERE status = 'published'").fetchone()
        return found[0]
