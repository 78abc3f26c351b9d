"""PostgreSQL: a column of lexemes made from the tokens, and an index over pieces of markings.

Tokens are cut in Python, so no text-search configuration has a say in what a word is.
"""
from __future__ import annotations

import hashlib
import logging
from collections.abc import Sequence

from django.db import DatabaseError, transaction
from django.db.backends.base.base import BaseDatabaseWrapper

from teardowns.searching.wanted import Wanted

from . import written as writing

TABLE = "teardowns_searchtext"
# Long columns go out of the rows, so that reading the keys of many rows reads few pages.
LEXEMES = (
    f"ALTER TABLE {TABLE} SET (toast_tuple_target = 128)",
    f"ALTER TABLE {TABLE} DROP COLUMN IF EXISTS lexemes",
    f"""ALTER TABLE {TABLE} ADD COLUMN lexemes tsvector
        GENERATED ALWAYS AS (array_to_tsvector(string_to_array(tokens, ' '))) STORED""",
    f"CREATE INDEX searchtext_lexemes ON {TABLE} USING gin (lexemes)",
    # The planner takes no account of what it costs to fetch a lexeme column that lies outside of
    # its row, and would rather filter the table from its end.
    f"""CREATE OR REPLACE FUNCTION searchtext_tiers(
            wanted tsquery[], most integer, enough_from integer) RETURNS TABLE (tier integer,
            key bigint)
        LANGUAGE plpgsql STABLE SET enable_seqscan = off SET enable_indexscan = off
        SET max_parallel_workers_per_gather = 0 AS $$
        DECLARE got integer;
        BEGIN
            FOR n IN 1 .. cardinality(wanted) LOOP
                IF most = 1 THEN        -- whether there is any: which one does not matter
                    RETURN QUERY SELECT n - 1, id FROM {TABLE} WHERE lexemes @@ wanted[n] LIMIT 1;
                ELSE
                    RETURN QUERY SELECT n - 1, id FROM {TABLE} WHERE lexemes @@ wanted[n]
                        ORDER BY id DESC LIMIT most;
                END IF;
                GET DIAGNOSTICS got = ROW_COUNT;
                EXIT WHEN got >= most AND n > enough_from;
            END LOOP;
        END $$""",
)
PIECES_INDEX = (
    "CREATE EXTENSION IF NOT EXISTS pg_trgm",
    "DROP INDEX IF EXISTS searchtext_pieces",
    f"CREATE INDEX searchtext_pieces ON {TABLE} USING gin (run_together gin_trgm_ops)",
)
VERSION = hashlib.sha256("".join((*LEXEMES, *PIECES_INDEX)).encode()).hexdigest()
NO_EXTENSION = ("The extension pg_trgm cannot be created here, so that a search for a piece of a "
                "marking reads every row: let a superuser run CREATE EXTENSION pg_trgm, then "
                "migrate.")

PIECES = f"""SELECT id FROM {TABLE} WHERE {{where}} AND id %% 4 = %s
    ORDER BY id DESC LIMIT %s"""
INSIDE = "run_together LIKE %s"
BESIDES = "lexemes @@ %s::tsquery"


def install(connection: BaseDatabaseWrapper) -> None:
    """Without the right to make the extension all works on, slower."""
    _run(connection, LEXEMES)
    try:
        _run(connection, PIECES_INDEX)
    except DatabaseError as error:
        logging.getLogger(__name__).warning("%s (%s)", NO_EXTENSION, error)
        return
    with connection.cursor() as cursor:
        cursor.execute(f"COMMENT ON COLUMN {TABLE}.lexemes IS '{VERSION}'")


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """What of the index is not there as it is defined here."""
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT col_description(attrelid, attnum) FROM pg_attribute WHERE attrelid ="
            " %s::regclass AND attname = 'lexemes' AND NOT attisdropped", [TABLE])
        version = cursor.fetchone()
        cursor.execute("SELECT indexname FROM pg_indexes WHERE tablename = %s", [TABLE])
        indexes = {name for name, in cursor.fetchall()}
    wanted = {"searchtext_lexemes", "searchtext_pieces"}
    return sorted(wanted - indexes) + ([] if version == (VERSION,) else ["lexemes"])


def tidy(connection: BaseDatabaseWrapper) -> None:
    """Autovacuum does it."""


def written(wanted: Wanted) -> str:
    return writing.written(wanted, _token, " & ", " | ")


def by_tier(connection: BaseDatabaseWrapper, tiers: Sequence[Wanted], limit: int,
            enough_from: int) -> list[tuple[int, int]]:
    with connection.cursor() as cursor:
        cursor.execute("SELECT tier, key FROM searchtext_tiers(%s::tsquery[], %s, %s)",
                       [list(map(written, tiers)), limit, enough_from])
        return cursor.fetchall()


def beginning(column: str, text: str) -> tuple[str, list[str]]:
    """By the index for patterns that Django makes; keys hold no sign of a pattern."""
    return f"{column} LIKE %s", [f"{text}%"]


def _run(connection, statements):
    with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def _token(word: str, is_start: bool) -> str:
    return f"'{word}':*" if is_start else f"'{word}'"
