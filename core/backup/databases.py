"""The database at one moment into a file, while others write; and from the file into an empty one.

SQLite by its backup interface, PostgreSQL by pg_dump and pg_restore of its own release.
"""
from __future__ import annotations

import os
import sqlite3
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.db import connection

from core.backup.bags import Progress

PAGES = 2000            # of SQLite between two looks at the progress bar
NAMES = {"sqlite": "data/database.sqlite3", "postgresql": "data/database.pgdump"}
SECURITY = ("sslmode", "sslrootcert", "sslcert", "sslkey", "channel_binding", "service")


class NotDone(Exception):
    """The database's own program did not do it; the message has its words and the remedy."""


@contextmanager
def copied(to: Path, say: Progress) -> Iterator[Any]:
    """A copy of one moment at that path; gives a cursor that sees the same moment."""
    if connection.vendor == "postgresql":
        with _one_moment() as (cursor, snapshot):
            _dump(to, snapshot)
            yield cursor
        return
    _copy_sqlite(to, say)
    copy = sqlite3.connect(f"file:{to}?mode=ro", uri=True)
    try:
        yield copy.cursor()
    except sqlite3.Error as error:
        raise NotDone(f"The copy of the database cannot be read: {error}.") from error
    finally:
        copy.close()


@contextmanager
def _one_moment():
    """A transaction whose view of the data pg_dump takes over."""
    connection.ensure_connection()
    with connection.cursor() as cursor:
        cursor.execute("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY")
        try:
            cursor.execute("SELECT pg_export_snapshot()")
            yield cursor, cursor.fetchone()[0]
        finally:
            cursor.execute("ROLLBACK")


def _dump(to, snapshot):
    # Compressed anew by nobody: disks and transports do it, and equal data stay equal.
    _run("pg_dump", "--format=custom", "--compress=1", "--no-owner", "--no-privileges",
         f"--snapshot={snapshot}", f"--file={to}")


def _copy_sqlite(to, say):
    """A read transaction held open keeps to one moment, however many steps the copying takes."""
    source = sqlite3.connect(connection.settings_dict["NAME"], timeout=20, uri=True)
    copy = sqlite3.connect(to)
    try:
        source.execute("BEGIN")
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        source.backup(copy, pages=PAGES, progress=lambda _, left, total: say(
            "Copied the database, pages", total - left, total))
        source.rollback()
        copy.execute("PRAGMA journal_mode=DELETE")       # one file, without a log beside it
    finally:
        copy.close()
        source.close()


def is_empty() -> bool:
    connection.ensure_connection()
    return not connection.introspection.table_names()


def put_back(file: Path, say: Progress) -> None:
    """Into the database of the settings, which has no tables."""
    if connection.vendor == "postgresql":
        _run("pg_restore", "--exit-on-error", "--single-transaction", "--no-owner",
             "--no-privileges", str(file))
        return
    connection.ensure_connection()
    copy = sqlite3.connect(f"file:{file}?mode=ro", uri=True)
    try:
        copy.backup(connection.connection, pages=PAGES, progress=lambda _, left, total: say(
            "Put back the database, pages", total - left, total))
    finally:
        copy.close()
    connection.close()


def _run(program, *arguments):
    """The password goes by the environment: arguments are seen by every account of the machine."""
    asked = connection.get_connection_params()
    named = {"host": asked.get("host"), "port": asked.get("port"), "user": asked.get("user"),
             "dbname": asked.get("dbname")} | {name: asked.get(name) for name in SECURITY}
    target = " ".join(f"{name}={_quoted(value)}" for name, value in named.items() if value)
    environment = os.environ | ({"PGPASSWORD": asked["password"]} if asked.get("password") else {})
    try:
        done = subprocess.run([program, f"--dbname={target}", *arguments], env=environment,
                              capture_output=True, check=False, text=True)
    except FileNotFoundError as error:
        raise NotDone(f"{program} is not installed here. Install the client programs of the "
                      "server's release: apt-get install postgresql-client.") from error
    if done.returncode:
        raise NotDone(f"{program} says: {done.stderr.strip().splitlines()[-1]} It has to be of "
                      "the server's release or a later one, and the account has to read all.")


def _quoted(value):
    return "'" + str(value).replace("\\", "\\\\").replace("'", "\\'") + "'"


def contents(cursor: Any) -> dict[str, list[Any]]:
    """Rows of each table, and on PostgreSQL SHA-256 of them in the order of the primary key."""
    if connection.vendor == "postgresql":
        return {table: list(_copied_out(cursor, table)) for table in _tables(cursor)}
    cursor.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE"
                   " 'sqlite_%' AND sql NOT LIKE 'CREATE VIRTUAL%' ORDER BY name")
    return {table: [cursor.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0]]
            for table, in cursor.fetchall()}


def _tables(cursor):
    cursor.execute("SELECT relname FROM pg_class WHERE relkind = 'r' AND relnamespace ="
                   " current_schema()::regnamespace ORDER BY relname")
    return [name for name, in cursor.fetchall()]


def _copied_out(cursor, table):
    cursor.execute("SELECT string_agg(quote_ident(attname), ', ' ORDER BY place) FROM pg_index,"
                   " unnest(indkey) WITH ORDINALITY AS key(number, place), pg_attribute"
                   " WHERE indrelid = %s::regclass AND indisprimary AND attrelid = indrelid"
                   " AND attnum = number", [f'"{table}"'])
    key = cursor.fetchone()[0]
    order = f" ORDER BY {key}" if key else ""
    rows, found = 0, sha256()
    with cursor.cursor.copy(f'COPY (SELECT * FROM "{table}"{order}) TO STDOUT') as lines:
        for block in lines:
            rows += bytes(block).count(b"\n")
            found.update(block)
    return rows, found.hexdigest()
