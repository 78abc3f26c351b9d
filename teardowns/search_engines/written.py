"""A question in the syntax of an engine; what a person typed stands between quotes alone.

It is an expression of SQL: beginnings become the words that begin so when the database is asked.
"""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from teardowns.searching.wanted import AllOf, Token, Wanted

_SOUND = re.compile(r"[^\W_]+(?:\.[^\W_]+)*")


def written(wanted: Wanted, token: Callable[[str, bool], str | None], begun: str, both: str,
            either: str) -> tuple[str, list[str]]:
    """An expression of SQL, and its values.

    token : a word and whether it is a start; none where that is to be written as `begun`, which has
    places for it; both, either : the signs that join. Raises ValueError for a word that is none.
    """
    sql, values, text = [], [], ""
    for piece in _pieces(wanted, token, both, either):
        if isinstance(piece, str):
            text += piece
            continue
        sql += ["%s", begun]
        values += [text] + [piece.word] * begun.count("%s")
        text = ""
    return " || ".join([*sql, "%s"]), [*values, text]


def _pieces(wanted, token, both, either) -> Iterator[str | Token]:
    """Text, and between it the beginnings that are looked up."""
    if isinstance(wanted, Token):
        if not _SOUND.fullmatch(wanted.word):
            raise ValueError("A token is letters and digits.")
        yield token(wanted.word, wanted.is_start) or wanted
        return
    if not wanted.parts:
        raise ValueError("A part of a question is empty.")
    for n, part in enumerate(wanted.parts):
        yield (both if isinstance(wanted, AllOf) else either) if n else "("
        yield from _pieces(part, token, both, either)
    yield ")"
