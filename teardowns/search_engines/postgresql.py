"""PostgreSQL: a column of lexemes made from the tokens, their words, an index over pieces.

Tokens are cut in Python, so no text-search configuration has a say in what a word is.
"""
from __future__ import annotations

import hashlib
import logging
from collections.abc import Collection, Sequence
from itertools import accumulate

from django.db import DatabaseError, transaction
from django.db.backends.base.base import BaseDatabaseWrapper

from teardowns.searching.wanted import Wanted

from . import known_words
from . import written as writing

TABLE = "teardowns_searchtext"
BLOCK, FIRST_BLOCKS = 1 << 14, 2        # keys, of four times as few units; blocks looked into first
MANY = 6                    # times as many rows as are asked for: then a part of the table will do
# Long columns go out of the rows, so that reading the keys of many rows reads few pages. A lexeme
# says in which block of keys a row lies, so that the newest rows with a word that most have are
# found without all the others.
LEXEMES = (
    f"ALTER TABLE {TABLE} SET (toast_tuple_target = 128)",
    f"ALTER TABLE {TABLE} DROP COLUMN IF EXISTS lexemes",
    f"""ALTER TABLE {TABLE} ADD COLUMN lexemes tsvector GENERATED ALWAYS AS (array_to_tsvector(
        string_to_array(tokens, ' ') || ('block' || (id / {BLOCK})::text))) STORED""",
    f"CREATE INDEX searchtext_lexemes ON {TABLE} USING gin (lexemes)",
    "DROP FUNCTION IF EXISTS searchtext_tiers",
)
# Learns the words that a statement writes, in their order, so that nobody waits round. Who forgets
# words waits for those that learn some.
LOCK = 7_031_415
ALL_KNOWN = ""              # this row says that all words are known; until then none is looked up
WORDS = (
    f'CREATE TABLE IF NOT EXISTS {known_words.TABLE} (word text COLLATE "C" PRIMARY KEY)',
    # The owner's rights for this one table: a temporary one of the same name never comes before it.
    "SELECT set_config('search_path', quote_ident(current_schema()) || ', pg_temp', true)",
    f"""CREATE OR REPLACE FUNCTION searchtext_learn() RETURNS trigger LANGUAGE plpgsql
        SECURITY DEFINER SET search_path FROM CURRENT AS $$
        BEGIN
            PERFORM pg_advisory_xact_lock_shared({LOCK});
            INSERT INTO {known_words.TABLE} SELECT DISTINCT word
                FROM came, unnest(string_to_array(tokens, ' ')) word WHERE word <> ''
                ORDER BY word ON CONFLICT DO NOTHING;
            RETURN NULL;
        END $$""",
    *(statement for name, when in (("searchtext_put", "INSERT"), ("searchtext_changed", "UPDATE"))
      for statement in (
          f"DROP TRIGGER IF EXISTS {name} ON {TABLE}",
          f"CREATE TRIGGER {name} AFTER {when} ON {TABLE} REFERENCING NEW TABLE AS came"
          " FOR EACH STATEMENT EXECUTE FUNCTION searchtext_learn()")),
)
SLICE = 20_000              # keys whose words are learnt at once, so that nobody waits long
LEARN = f"""INSERT INTO {known_words.TABLE} SELECT DISTINCT word
    FROM {TABLE}, unnest(string_to_array(tokens, ' ')) word
    WHERE id >= %s AND id < %s AND word <> '' ORDER BY word ON CONFLICT DO NOTHING"""
# The planner takes no account of what it costs to fetch a lexeme column that lies outside of its
# row, and would rather filter the table from its end.
SETTINGS = ("SET enable_seqscan = off SET enable_indexscan = off "
            "SET max_parallel_workers_per_gather = 0")
FUNCTIONS = (
    # Of a beginning the words that begin so; where they are too many, or not known yet, itself.
    # In a language that keeps its plans: eight are asked for a search.
    f"""CREATE OR REPLACE FUNCTION searchtext_begun(start text) RETURNS text LANGUAGE plpgsql STABLE
        AS $$
        BEGIN
            RETURN (SELECT CASE
                WHEN count(*) > {known_words.MOST} OR NOT EXISTS (
                    SELECT FROM {known_words.TABLE} WHERE word = '{ALL_KNOWN}')
                    THEN '''' || start || ''':*'
                WHEN count(*) = 0 THEN '''' || start || ''''
                ELSE '(' || string_agg('''' || word || '''', '|') || ')' END
            FROM (SELECT word FROM {known_words.TABLE}
                  WHERE word >= start AND word < start || chr(1114111)
                  ORDER BY word LIMIT {known_words.MOST + 1}) known);
        END $$""",
    # Words that no row has any more, of those behind the first of two and up to the other.
    f"""CREATE OR REPLACE FUNCTION searchtext_forget(first text, last text) RETURNS void
        LANGUAGE plpgsql {SETTINGS} AS $$
        BEGIN
            PERFORM pg_advisory_xact_lock({LOCK});
            DELETE FROM {known_words.TABLE} WHERE word > first AND word <= last AND NOT EXISTS (
                SELECT FROM {TABLE} WHERE lexemes @@ array_to_string(ARRAY['', word, ''],
                                                                     chr(39))::tsquery);
        END $$""",
    # The newest rows that have what is wanted, the largest key first. Where the first blocks have
    # many, as many more are looked through as it will take; otherwise all at once.
    f"""CREATE OR REPLACE FUNCTION searchtext_newest(wanted tsquery, most integer, last bigint,
            first_blocks tsquery) RETURNS bigint[] LANGUAGE plpgsql STABLE AS $$
        DECLARE
            top bigint := last;                     -- the newest block that was not looked through
            width bigint := {FIRST_BLOCKS};
            blocks tsquery := first_blocks;
            found bigint[] := '{{}}';
        BEGIN
            WHILE blocks IS NOT NULL AND cardinality(found) < most LOOP
                found := found || ARRAY(
                    SELECT id FROM {TABLE} WHERE lexemes @@ wanted AND lexemes @@ blocks
                    ORDER BY id DESC LIMIT most - cardinality(found));
                top := top - width;
                EXIT WHEN cardinality(found) = 0;
                width := (most - cardinality(found)) * (last - top) * 5
                    / (cardinality(found) * 4) + 1;
                blocks := CASE WHEN width < top THEN searchtext_blocks(top, width) END;
            END LOOP;
            IF cardinality(found) < most THEN
                found := found || ARRAY(
                    SELECT id FROM {TABLE} WHERE lexemes @@ wanted AND id + 0 < (top + 1) * {BLOCK}
                    ORDER BY id DESC LIMIT most - cardinality(found));
            END IF;
            RETURN found;
        END $$""",
    # The newest blocks up to this one.
    """CREATE OR REPLACE FUNCTION searchtext_blocks(top bigint, width bigint) RETURNS tsquery
        LANGUAGE sql IMMUTABLE AS $$
            SELECT string_agg('block' || n, '|')::tsquery FROM generate_series(
                top - width + 1, top) n $$""",
    # The newest blocks, where so many rows have what is wanted that a part of the table will do.
    f"""CREATE OR REPLACE FUNCTION searchtext_first_blocks(wanted tsquery, most integer,
            last bigint) RETURNS tsquery LANGUAGE plpgsql STABLE AS $$
        DECLARE blocks tsquery;
        BEGIN
            IF last > {FIRST_BLOCKS} THEN
                blocks := searchtext_blocks(last, {FIRST_BLOCKS});
                IF (SELECT count(*) FROM {TABLE} WHERE lexemes @@ wanted AND lexemes @@ blocks)
                        > {MANY} * most * {FIRST_BLOCKS} / last THEN
                    RETURN blocks;
                END IF;
            END IF;
            RETURN NULL;
        END $$""",
    # Of each group of tiers the rows of one tier after the other, those that came before left out
    # within the index. ends : of the groups, as numbers of their last tiers; last : block
    f"""CREATE OR REPLACE FUNCTION searchtext_best(wanted tsquery[], ends integer[], most integer,
            last bigint) RETURNS TABLE (of_group bigint[]) LANGUAGE plpgsql STABLE {SETTINGS} AS $$
        DECLARE
            n integer := 1;
            before tsquery;
            first_blocks tsquery;
            tier bigint[];
        BEGIN
            FOR g IN 1 .. cardinality(ends) LOOP
                of_group := '{{}}';
                before := NULL;
                -- The last tier of a group has the most.
                first_blocks := CASE WHEN most > 1 AND n <= ends[g] THEN
                    searchtext_first_blocks(wanted[ends[g]], most, last) END;
                WHILE n <= ends[g] AND cardinality(of_group) < most LOOP
                    IF most = 1 THEN    -- whether there is any: which one does not matter
                        tier := ARRAY(SELECT id FROM {TABLE} WHERE lexemes @@ wanted[n] LIMIT 1);
                    ELSE
                        tier := searchtext_newest(coalesce(wanted[n] && !!before, wanted[n]),
                                                  most - cardinality(of_group), last, first_blocks);
                    END IF;
                    IF cardinality(tier) > 0 THEN
                        before := coalesce(before || wanted[n], wanted[n]);
                        of_group := of_group || tier;
                    END IF;
                    n := n + 1;
                END LOOP;
                n := ends[g] + 1;
                RETURN NEXT;
            END LOOP;
        END $$""",
)
PIECES_INDEX = (
    "CREATE EXTENSION IF NOT EXISTS pg_trgm",
    "DROP INDEX IF EXISTS searchtext_pieces",
    f"CREATE INDEX searchtext_pieces ON {TABLE} USING gin (run_together gin_trgm_ops)",
)


def _digest(*statements):
    return hashlib.sha256("".join(statements).encode()).hexdigest()


# The first is that of releases whose column bore one version of everything: it is the same column.
VERSIONS = {
    "lexemes": ("734616e72eef652f8b60b0a872ea40e86718199168adbdc5649773f2a5dbc31a",
                _digest(*LEXEMES)),
    "functions": (_digest(*FUNCTIONS),),
    known_words.TABLE: (_digest(*WORDS),),
}
PARTS = (*VERSIONS, "searchtext_pieces")
NO_EXTENSION = ("The extension pg_trgm cannot be created here, so that a search for a piece of a "
                "marking reads every row: let a superuser run CREATE EXTENSION pg_trgm, then "
                "migrate.")

NOTED = {
    "lexemes": f"COMMENT ON COLUMN {TABLE}.lexemes IS '{{version}}'",
    "functions": "COMMENT ON FUNCTION searchtext_begun(text) IS '{version}'",
    known_words.TABLE: f"COMMENT ON TABLE {known_words.TABLE} IS '{{version}}'",
}
FOUND = f"""SELECT (SELECT col_description(attrelid, attnum) FROM pg_attribute
        WHERE attrelid = %s::regclass AND attname = 'lexemes' AND NOT attisdropped),
    obj_description(to_regprocedure('searchtext_begun(text)')),
    obj_description(to_regclass('{known_words.TABLE}'))"""
BEST = f"""SELECT of_group FROM searchtext_best(ARRAY[{{wanted}}]::tsquery[], %s, %s,
    (SELECT max(id) / {BLOCK} FROM {TABLE}))"""
PIECES = f"""SELECT id FROM {TABLE} WHERE {{where}} AND id %% 4 = %s
    ORDER BY id DESC LIMIT %s"""
BESIDES = "lexemes @@ ({wanted})::tsquery"


def install(connection: BaseDatabaseWrapper, names: Collection[str]) -> None:
    """Without the right to make the extension all works on, slower."""
    if known_words.TABLE in names:
        _learn(connection)
    for name, statements in (("lexemes", LEXEMES), ("functions", FUNCTIONS)):
        if name in names:
            _run(connection, (*statements, NOTED[name].format(version=VERSIONS[name][-1])))
    if "searchtext_pieces" in names:
        try:
            _run(connection, PIECES_INDEX)
        except DatabaseError as error:
            logging.getLogger(__name__).warning("%s (%s)", NO_EXTENSION, error)


def _learn(connection):
    """All words of the table, a slice after the other, while others write."""
    name = known_words.TABLE
    _run(connection, (*WORDS, f"DELETE FROM {name} WHERE word = '{ALL_KNOWN}'"))
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT coalesce(max(id), 0) FROM {TABLE}")
        last, = cursor.fetchone()
        for start in range(0, last + 1, SLICE):
            cursor.execute(LEARN, [start, start + SLICE])
    _run(connection, (f"INSERT INTO {name} VALUES ('{ALL_KNOWN}')",
                      NOTED[name].format(version=VERSIONS[name][-1])))


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """What of the index is not there as it is defined here."""
    with connection.cursor() as cursor:
        cursor.execute(FOUND, [TABLE])
        found = dict(zip(VERSIONS, cursor.fetchone(), strict=True))
        cursor.execute("SELECT indexname FROM pg_indexes WHERE tablename = %s", [TABLE])
        indexes = {name for name, in cursor.fetchall()}
    lacking = {name for name, versions in VERSIONS.items() if found[name] not in versions}
    lacking |= {"lexemes"} - {name.removeprefix("searchtext_") for name in indexes}
    return sorted(lacking | {"searchtext_pieces"} - indexes)


def tidy(connection: BaseDatabaseWrapper) -> None:
    """Autovacuum does it."""


def forget(connection: BaseDatabaseWrapper, first: str, last: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute("SELECT searchtext_forget(%s, %s)", [first, last])


def written(wanted: Wanted) -> tuple[str, list[str]]:
    return writing.written(wanted, _token, "searchtext_begun(%s)", " & ", " | ")


def by_group(connection: BaseDatabaseWrapper, groups: Sequence[Sequence[Wanted]],
             limit: int) -> list[list[int]]:
    wanted = [written(tier) for tiers in groups for tier in tiers]
    ends = list(accumulate(map(len, groups)))
    best = BEST.format(wanted=", ".join(f"({sql})::tsquery" for sql, _ in wanted))
    with connection.cursor() as cursor:
        cursor.execute(best, [*(value for _, values in wanted for value in values), ends, limit])
        return [keys for keys, in cursor.fetchall()]


def inside(connection: BaseDatabaseWrapper, pieces: Sequence[str]) -> tuple[str, list[str]]:
    return " AND ".join(["run_together LIKE %s"] * len(pieces)), [f"%{one}%" for one in pieces]


def beginning(column: str, text: str) -> tuple[str, list[str]]:
    """By the index for patterns that Django makes; keys hold no sign of a pattern."""
    return f"{column} LIKE %s", [f"{text}%"]


def neighbours(column: str, text: str, is_before: bool) -> tuple[str, str, list[str]]:
    """By the same index, whose order is no language's."""
    if is_before:
        return f"{column} ~<~ %s", f"{column} USING ~>~", [text]
    return f"{column} ~>=~ %s", f"{column} USING ~<~", [text]


def _run(connection, statements):
    with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def _token(word: str, is_start: bool) -> str | None:
    return None if is_start else f"'{word}'"
