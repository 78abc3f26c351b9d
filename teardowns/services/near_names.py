"""Public names that are near a text which nothing has: each with what it is a name of."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from django.db import connection

from teardowns.models import SearchTerm
from teardowns.search_engines import by_group, neighbours
from teardowns.searching.folding import as_read, folded
from teardowns.searching.question import MOST_LETTERS, MOST_WORDS
from teardowns.searching.tokens import ANY, MAKER, MARKING, MODEL, OTHER, UNIT
from teardowns.searching.wanted import AllOf, Token, Wanted
from teardowns.searching.words import LONGEST, WORD, chunks_of, run_together

MOST = 6
LEAST_LETTERS = 3           # of a word that is held against names
BESIDE = 60                 # terms that are read on each side of a word
HELD = 3 * MOST             # the nearest terms, of which it is asked whether they are names
LIKE = 0.6                  # of 1, by difflib's measure; its own usual bound
TABLE = SearchTerm._meta.db_table


@dataclass(frozen=True, slots=True)
class NearName:
    what: str               # "maker", "model", "marking", "part", "board family"
    name: str               # as printed


def near_names(text: str) -> list[NearName]:
    """The nearest first. Two queries, and as much work whatever is public.

    Terms are read from where a word would stand among them, and from where it would stand if all
    were read from their end: what shares the longest beginning or end with it lies there.
    """
    words = _words(text)
    if not words:
        return []
    whole = run_together(as_read(text[:MOST_LETTERS]))
    shown = _beside(words)
    near = {key: shown[key] for word in words
            for key in get_close_matches(word, shown, MOST, LIKE) if key != whole}
    return _named(list(near.items())[:HELD])[:MOST]


def _words(text: str) -> list[str]:
    """The whole text as one name, then its words; numbers alone are no names."""
    typed = as_read(text[:MOST_LETTERS])
    found = [run_together(typed), *(whole for whole, _ in chunks_of(typed)[:MOST_WORDS])]
    return [word for word in dict.fromkeys(found)
            if LEAST_LETTERS <= len(word) <= LONGEST and WORD.fullmatch(word)
            and not word.isdigit()]


def _beside(words: Iterable[str]) -> dict[str, str]:
    """What is printed of the terms beside these words, by key."""
    ways = [neighbours(connection, column, start, is_before)
            for word in words for column, start in (('"key"', word), ("backwards", word[::-1]))
            for is_before in (False, True)]
    select = " UNION ALL ".join(
        f"""SELECT * FROM (SELECT "key", shown FROM {TABLE} WHERE {condition}
            ORDER BY {order} LIMIT {BESIDE}) of_{n}"""
        for n, (condition, order, _) in enumerate(ways))
    with connection.cursor() as cursor:
        cursor.execute(select, [value for _, _, values in ways for value in values])
        return dict(cursor.fetchall())


def _named(terms: list[tuple[str, str]]) -> list[NearName]:
    """Those that something public bears as a name."""
    asked = [(shown, what, wanted) for key, shown in terms for what, wanted in _kinds(key)]
    found = by_group(connection, [[wanted] for _, _, wanted in asked], 1)
    first: dict[str, NearName] = {}
    for (shown, what, _), keys in zip(asked, found, strict=True):
        if keys:
            first.setdefault(shown, NearName(what, shown))
    return list(first.values())


def _kinds(key: str) -> tuple[tuple[str, Wanted], ...]:
    """What a term may be a name of. A maker is kept as misread, so the word itself is asked too."""
    return (
        ("maker", AllOf((Token(UNIT + MAKER + folded(key)), Token(UNIT + ANY + key)))),
        ("model", Token(UNIT + MODEL + key)),
        ("marking", Token(UNIT + MARKING + key)),
        ("part", Token(OTHER + MARKING + key)),
        ("board family", Token(OTHER + MODEL + key)),
    )
