"""A question in the syntax of an engine; what a person typed stands between quotes alone."""
from __future__ import annotations

import re
from collections.abc import Callable

from teardowns.searching.wanted import AllOf, Token, Wanted

_SOUND = re.compile(r"[^\W_]+(?:\.[^\W_]+)*")


def written(wanted: Wanted, token: Callable[[str, bool], str], both: str, either: str) -> str:
    """token : a word and whether it is a start; both, either : the signs that join

    Raises ValueError for a word that is none.
    """
    if isinstance(wanted, Token):
        if not _SOUND.fullmatch(wanted.word):
            raise ValueError("A token is letters and digits.")
        return token(wanted.word, wanted.is_start)
    if not wanted.parts:
        raise ValueError("A part of a question is empty.")
    sign = both if isinstance(wanted, AllOf) else either
    return "(" + sign.join(written(part, token, both, either) for part in wanted.parts) + ")"
