"""SQLite: two full-text tables over the rows of SearchText, and their words, kept by triggers.

`detail=none` keeps no places of words in a text, which nothing here asks for.
"""
from __future__ import annotations

from collections.abc import Collection, Sequence

from django.db import transaction
from django.db.backends.base.base import BaseDatabaseWrapper

from teardowns.searching.wanted import Wanted

from . import known_words
from . import written as writing

PREFIXES = (4, 5)               # letters of a beginning whose rows the index keeps
OVER = "content='teardowns_searchtext', content_rowid='id', detail='none', columnsize=0"
# Tokens are cut in Python, the same for both databases: to this table all beyond ASCII is a letter.
TABLES = {
    "search_tokens": f"""CREATE VIRTUAL TABLE search_tokens USING fts5(tokens, {OVER},
        tokenize="ascii tokenchars '.'", prefix='{" ".join(map(str, PREFIXES))}')""",
    "search_pieces": f"""CREATE VIRTUAL TABLE search_pieces USING fts5(run_together, {OVER},
        tokenize='trigram')""",
}
WORDS = f"CREATE TABLE {known_words.TABLE} (word TEXT PRIMARY KEY) WITHOUT ROWID"
# Tokens hold nothing that means something to JSON.
PUT = f"""INSERT INTO search_tokens(rowid, tokens) VALUES (new.id, new.tokens);
    INSERT INTO search_pieces(rowid, run_together) VALUES (new.id, new.run_together);
    INSERT INTO {known_words.TABLE} SELECT DISTINCT value
        FROM json_each('["' || replace(new.tokens, ' ', '","') || '"]') AS came
        WHERE value <> '' AND NOT EXISTS (
            SELECT 1 FROM {known_words.TABLE} WHERE word = came.value);"""
TAKE = """INSERT INTO search_tokens(search_tokens, rowid, tokens)
        VALUES ('delete', old.id, old.tokens);
    INSERT INTO search_pieces(search_pieces, rowid, run_together)
        VALUES ('delete', old.id, old.run_together);"""
TRIGGERS = {
    name: f"CREATE TRIGGER {name} AFTER {when} ON teardowns_searchtext BEGIN {does} END"
    for name, when, does in (
        ("searchtext_put", "INSERT", PUT), ("searchtext_taken", "DELETE", TAKE),
        ("searchtext_changed", "UPDATE", TAKE + PUT))}
PARTS = DEFINITIONS = TABLES | TRIGGERS | {known_words.TABLE: WORDS}

PAGES, STEPS = 500, 2000        # of 4 kB that a step writes, and steps

BEGUN = f"""(SELECT CASE
        WHEN count(*) > {known_words.MOST} THEN '"' || %s || '"*'
        WHEN count(*) = 0 THEN '"' || %s || '"'
        ELSE '(' || group_concat('"' || word || '"', ' OR ') || ')' END
    FROM (SELECT word FROM {known_words.TABLE} WHERE word >= %s AND word < %s || char(1114111)
          ORDER BY word LIMIT {known_words.MOST + 1}))"""
OF_TIER = """SELECT {group}, rowid FROM (SELECT rowid FROM search_tokens
    WHERE search_tokens MATCH ({wanted}) ORDER BY rowid DESC LIMIT %s)"""
PIECES = """SELECT rowid FROM search_pieces WHERE {where} AND rowid %% 4 = %s
    ORDER BY rowid DESC LIMIT %s"""
# Three letters in a row that fewer rows have are looked for, and the others read off the rows that
# are found (`+`): FTS5 would walk through what all have as well, and keep few of it.
RARE = 1000
INSIDE = """search_pieces MATCH (SELECT coalesce(
    group_concat(letters, ' AND ') FILTER (WHERE rows < {rare}), group_concat(letters, ' AND '))
    FROM ({counted}))"""
COUNTED = f"""SELECT %s AS letters, (SELECT count(*) FROM (SELECT 1 FROM search_pieces
    WHERE search_pieces MATCH %s LIMIT {RARE})) AS rows"""
BESIDES = "rowid IN (SELECT rowid FROM search_tokens WHERE search_tokens MATCH ({wanted}))"
# Read off the index, which takes a tenth of what cutting all texts again would.
LEARN = (
    f"DROP TABLE IF EXISTS {known_words.TABLE}", WORDS,
    "CREATE VIRTUAL TABLE temp.search_vocabulary USING fts5vocab(main, search_tokens, 'row')",
    f"INSERT INTO {known_words.TABLE} SELECT term FROM temp.search_vocabulary",
    "DROP TABLE temp.search_vocabulary",
)
FORGET = f"""DELETE FROM {known_words.TABLE} WHERE word > %s AND word <= %s AND NOT EXISTS (
    SELECT 1 FROM search_tokens WHERE search_tokens MATCH '"' || word || '"' LIMIT 1)"""


def install(connection: BaseDatabaseWrapper, names: Collection[str]) -> None:
    with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        names = {*names, *_left_behind(cursor)}
        for name in TRIGGERS:
            cursor.execute(f"DROP TRIGGER IF EXISTS {name}")
        for name in TABLES.keys() & names:
            cursor.execute(f"DROP TABLE IF EXISTS {name}")
            cursor.execute(TABLES[name])
            cursor.execute(f"INSERT INTO {name}({name}) VALUES ('rebuild')")
        for statement in LEARN if known_words.TABLE in names else ():
            cursor.execute(statement)
        for definition in TRIGGERS.values():
            cursor.execute(definition)


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """Tables and triggers that are not there as they are defined here."""
    with connection.cursor() as cursor:
        found = _defined(cursor)
    return sorted(name for name, sql in DEFINITIONS.items() if found.get(name) != sql)


def _defined(cursor):
    cursor.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
    return dict(cursor.fetchall())


def _left_behind(cursor):
    """Tables that were not kept: any without one of the triggers, words by those of former code."""
    found = _defined(cursor)
    if TRIGGERS.keys() - found.keys():
        return DEFINITIONS
    return [known_words.TABLE] if any(found[name] != TRIGGERS[name] for name in TRIGGERS) else []


def tidy(connection: BaseDatabaseWrapper) -> None:
    """Merge the segments of both indexes, in steps that hold the write lock for a moment each.

    After 100 000 units that came one by one, a word is found twice as quickly.
    """
    with connection.cursor() as cursor:
        for name in TABLES:
            pages = -PAGES          # at first: also segments that would not be merged yet
            for _ in range(STEPS):
                before = cursor.connection.total_changes
                cursor.execute(f"INSERT INTO {name}({name}, rank) VALUES ('merge', %s)", [pages])
                pages = PAGES
                if cursor.connection.total_changes - before < 2:     # as SQLite says it is done
                    break


def forget(connection: BaseDatabaseWrapper, first: str, last: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(FORGET, [first, last])


def written(wanted: Wanted) -> tuple[str, list[str]]:
    return writing.written(wanted, _token, BEGUN, " AND ", " OR ")


def by_group(connection: BaseDatabaseWrapper, groups: Sequence[Sequence[Wanted]],
             limit: int) -> list[list[int]]:
    """All tiers: another one costs less than asking whether it is needed."""
    tiers = [(n, written(wanted)) for n, some in enumerate(groups) for wanted in some]
    select = " UNION ALL ".join(OF_TIER.format(group=n, wanted=sql) for n, (sql, _) in tiers)
    values: list[str | int] = []
    for _, (_, words) in tiers:
        values += [*words, limit]
    found: list[dict[int, None]] = [{} for _ in groups]
    with connection.cursor() as cursor:
        cursor.execute(select, values)
        for group, key in cursor.fetchall():
            found[group][key] = None
    return [list(keys)[:limit] for keys in found]


def inside(connection: BaseDatabaseWrapper, pieces: Sequence[str]) -> tuple[str, list[str]]:
    letters = dict.fromkeys(f'"{piece[at:at + 3]}"' for piece in pieces
                            for at in range(len(piece) - 2))
    like, values = ["+run_together LIKE %s"] * len(pieces), [f"%{piece}%" for piece in pieces]
    if not letters:
        return " AND ".join(like), values
    counted = " UNION ALL ".join([COUNTED] * len(letters))
    return (" AND ".join([INSIDE.format(rare=RARE, counted=counted), *like]),
            [one for some in letters for one in (some, some)] + values)


def beginning(column: str, text: str) -> tuple[str, list[str]]:
    """As a range: LIKE would go by both cases, which no index knows."""
    return f"{column} >= %s AND {column} < %s", [text, text + "\U0010ffff"]


def neighbours(column: str, text: str, is_before: bool) -> tuple[str, str, list[str]]:
    if is_before:
        return f"{column} < %s", f"{column} DESC", [text]
    return f"{column} >= %s", column, [text]


def _token(word: str, is_start: bool) -> str | None:
    """Of short beginnings the index has the rows as it has them of a word."""
    if is_start:
        return f'"{word}"*' if len(word) in PREFIXES else None
    return f'"{word}"'
