"""SQLite: two full-text tables over the rows of SearchText, kept by triggers.

`detail=none` keeps no places of words in a text, which nothing here asks for.
"""
from __future__ import annotations

from collections.abc import Sequence

from django.db.backends.base.base import BaseDatabaseWrapper

from teardowns.searching.wanted import Wanted

from . import written as writing

OVER = "content='teardowns_searchtext', content_rowid='id', detail='none', columnsize=0"
# Tokens are cut in Python, the same for both databases: to this table all beyond ASCII is a letter.
TABLES = {
    "search_tokens": f"""CREATE VIRTUAL TABLE search_tokens USING fts5(tokens, {OVER},
        tokenize="ascii tokenchars '.'", prefix='4 5')""",
    "search_pieces": f"""CREATE VIRTUAL TABLE search_pieces USING fts5(run_together, {OVER},
        tokenize='trigram')""",
}
PUT = """INSERT INTO search_tokens(rowid, tokens) VALUES (new.id, new.tokens);
    INSERT INTO search_pieces(rowid, run_together) VALUES (new.id, new.run_together);"""
TAKE = """INSERT INTO search_tokens(search_tokens, rowid, tokens)
        VALUES ('delete', old.id, old.tokens);
    INSERT INTO search_pieces(search_pieces, rowid, run_together)
        VALUES ('delete', old.id, old.run_together);"""
TRIGGERS = {
    name: f"CREATE TRIGGER {name} AFTER {when} ON teardowns_searchtext BEGIN {does} END"
    for name, when, does in (
        ("searchtext_put", "INSERT", PUT), ("searchtext_taken", "DELETE", TAKE),
        ("searchtext_changed", "UPDATE", TAKE + PUT))}
DEFINITIONS = TABLES | TRIGGERS

PAGES, STEPS = 500, 2000        # of 4 kB that a step writes, and steps

OF_TIER = """SELECT {group}, rowid FROM (SELECT rowid FROM search_tokens
    WHERE search_tokens MATCH %s ORDER BY rowid DESC LIMIT %s)"""
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
BESIDES = "rowid IN (SELECT rowid FROM search_tokens WHERE search_tokens MATCH %s)"


def install(connection: BaseDatabaseWrapper) -> None:
    with connection.cursor() as cursor:
        for name in TRIGGERS:
            cursor.execute(f"DROP TRIGGER IF EXISTS {name}")
        for name, definition in TABLES.items():
            cursor.execute(f"DROP TABLE IF EXISTS {name}")
            cursor.execute(definition)
            cursor.execute(f"INSERT INTO {name}({name}) VALUES ('rebuild')")
        for definition in TRIGGERS.values():
            cursor.execute(definition)


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """Tables and triggers that are not there as they are defined here."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        found = dict(cursor.fetchall())
    return sorted(name for name, sql in DEFINITIONS.items() if found.get(name) != sql)


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


def written(wanted: Wanted) -> str:
    return writing.written(wanted, _token, " AND ", " OR ")


def by_group(connection: BaseDatabaseWrapper, groups: Sequence[Sequence[Wanted]],
             limit: int) -> list[list[int]]:
    """All tiers: another one costs less than asking whether it is needed."""
    tiers = [(n, wanted) for n, some in enumerate(groups) for wanted in some]
    select = " UNION ALL ".join(OF_TIER.format(group=n) for n, _ in tiers)
    values = [value for _, wanted in tiers for value in (written(wanted), limit)]
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


def _token(word: str, is_start: bool) -> str:
    return f'"{word}"*' if is_start else f'"{word}"'
