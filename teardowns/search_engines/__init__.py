"""One interface to what SQLite and PostgreSQL offer for finding rows of SearchText.

    install(connection, names)      make the index anew, or of it what is named
    missing(connection)             what of it is not there
    ids(connection, tiers, limit)   rows by tier, the newest first in each, so many of each at most
    by_group(connection, groups, …) the same of several groups of tiers, so many of each group
    inside(connection, pieces, …)   rows with pieces inside their markings
    beginning(connection, column)   how a column is asked for what begins with a text
    neighbours(connection, column)  how it is asked for what stands beside a text in its order
    forget_words(connection, …)     drop words that no row has any more
    tidy(connection)                what the database does not do by itself to keep it quick
"""
from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

from teardowns.searching.wanted import Wanted

from . import known_words, postgresql, sqlite

TABLE = "teardowns_searchtext"


def engine(connection: BaseDatabaseWrapper) -> Any:
    return postgresql if connection.vendor == "postgresql" else sqlite


def install_after_migrating(using: str, **kwargs: Any) -> None:
    """For the signal post_migrate; a table that is not there yet is passed over."""
    connection = connections[using]
    if TABLE in connection.introspection.table_names() and (lacking := missing(connection)):
        install(connection, lacking)


def install(connection: BaseDatabaseWrapper, names: Collection[str] | None = None) -> None:
    """The index over what the table holds now; whatever was there of it is dropped before.

    names : as `missing` says them; all where there are none
    """
    one = engine(connection)
    one.install(connection, one.PARTS if names is None else names)


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    return engine(connection).missing(connection)


def tidy(connection: BaseDatabaseWrapper) -> None:
    engine(connection).tidy(connection)


def forget_words(connection: BaseDatabaseWrapper, after: str, size: int) -> str | None:
    """Look at so many words that follow one and forget those that no row has any more.

    The last that was looked at, to go on from; None where none followed.
    """
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT max(word) FROM (SELECT word FROM {known_words.TABLE} "
                       "WHERE word > %s ORDER BY word LIMIT %s) following", [after, size])
        last, = cursor.fetchone()
    if last is not None:
        engine(connection).forget(connection, after, last)
    return last


def ids(connection: BaseDatabaseWrapper, tiers: Sequence[Wanted], limit: int) -> list[int]:
    """Keys of rows that have what a tier wants, tier after tier, each row once."""
    by_tier = by_group(connection, [[tier] for tier in tiers], limit)
    return list(dict.fromkeys(key for keys in by_tier for key in keys))


def by_group(connection: BaseDatabaseWrapper, groups: Sequence[Sequence[Wanted]],
             limit: int) -> list[list[int]]:
    """For each group of tiers the keys of its rows, at most `limit`; one query for all.

    Tier after tier, the newest first in each, each row once in a group. With a limit of one it is
    any row of the first tier that has one, which is quicker.
    """
    if not any(groups):
        return [[] for _ in groups]
    return engine(connection).by_group(connection, groups, limit)


def inside(connection: BaseDatabaseWrapper, pieces: Sequence[str], besides: Wanted | None,
           kind: int, limit: int) -> list[int]:
    """Keys of rows in whose run-together markings all pieces stand, the newest first.

    pieces : folded letters and digits, three or more of each; besides : what else the row has;
    kind : of models.search_texts.Findable
    """
    one = engine(connection)
    condition, values = one.inside(connection, pieces)
    where = [condition]
    if besides is not None:
        wanted, words = one.written(besides)
        where.append(one.BESIDES.format(wanted=wanted))
        values += words
    with connection.cursor() as cursor:
        cursor.execute(one.PIECES.format(where=" AND ".join(where)),
                       [*values, kind, limit])
        return [key for key, in cursor.fetchall()]


def beginning(connection: BaseDatabaseWrapper, column: str, text: str) -> tuple[str, list[str]]:
    """A condition that the index over the column answers, and its values."""
    return engine(connection).beginning(column, text)


def neighbours(connection: BaseDatabaseWrapper, column: str, text: str,
               is_before: bool) -> tuple[str, str, list[str]]:
    """A condition and an order that walk the index over the column away from a text; values.

    The order is that of the bytes, which both databases share.
    """
    return engine(connection).neighbours(column, text, is_before)
