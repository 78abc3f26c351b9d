"""Keep the search quick and its words those of today: what the worker does daily, in slices."""
from __future__ import annotations

from django.db import connection

from teardowns.models import SearchTerm
from teardowns.search_engines import by_group, forget_words, tidy
from teardowns.searching.tokens import ANY, OTHER, UNIT
from teardowns.searching.wanted import AnyOf, Token

SLICE = 5000                # terms
AT_ONCE = 200               # terms that one query asks about, words that a change waits for


def tidy_index() -> None:
    """Bring the pieces together that the database's index grew into with each change."""
    tidy(connection)


def sweep_terms(after_pk: int = 0, size: int = SLICE) -> int | None:
    """Forget words that nothing public has any more. The last that was looked at, to go on from;
    None when it was the last of all.
    """
    terms = list(SearchTerm.objects.filter(pk__gt=after_pk).order_by("pk")
                 .values_list("pk", "key")[:size])
    for start in range(0, len(terms), AT_ONCE):
        some = terms[start:start + AT_ONCE]
        found = by_group(connection, [[_anywhere(key)] for _, key in some], 1)
        gone = [pk for (pk, _), keys in zip(some, found, strict=True) if not keys]
        SearchTerm.objects.filter(pk__in=gone).delete()
    return terms[-1][0] if len(terms) == size else None


def sweep_words(after: str = "", size: int = SLICE) -> str | None:
    """The same of the words of the index; of those that follow one."""
    last: str | None = after
    for _ in range(0, size, AT_ONCE):
        if last is not None:
            last = forget_words(connection, last, min(size, AT_ONCE))
    return last


def _anywhere(key):
    return AnyOf((Token(UNIT + ANY + key), Token(OTHER + ANY + key)))
