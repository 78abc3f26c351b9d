"""What somebody may have meant, and how a word or name goes on: of what is public now."""
from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from django.db import connection

from teardowns.models import SearchTerm
from teardowns.search_engines import beginning, by_group
from teardowns.searching.folding import as_read, plain
from teardowns.searching.near_words import MOST_EDITS, halves, nearest
from teardowns.searching.question import MOST_LETTERS, MOST_WORDS, read_question
from teardowns.searching.tokens import ANY, OTHER, UNIT
from teardowns.searching.wanted import AllOf, AnyOf, Token, Wanted
from teardowns.searching.words import WORD, run_together

MOST = 6
MOST_KNOWN = 2000           # words that are held against a misspelt one
LEAST_MEANT = 4             # letters of a word that another may have been meant by
LEAST_BEGUN = 2
TABLE = SearchTerm._meta.db_table


@dataclass(frozen=True, slots=True)
class Suggestion:
    text: str                   # to be searched for instead
    is_completion: bool = False


def suggestions(text: str) -> list[Suggestion]:
    """How a text goes on, then what may have been meant by it. Six queries at most."""
    meant = [Suggestion(other) for other in meant_by(text)]
    begun = [Suggestion(other, True) for other in completions(text)]
    return list({plain(one.text): one for one in [*begun, *meant][::-1]}.values())[::-1][:MOST]


def completions(text: str) -> list[str]:
    """Names and words that go on from what is typed, each with something public behind it.

    Three queries at most.
    """
    typed = as_read(text[:MOST_LETTERS])
    before, last = _last_word(typed)
    starts = dict.fromkeys((run_together(typed), plain(last)))
    found = {start: _begun(start) for start in starts if len(start) >= LEAST_BEGUN}
    whole = run_together(typed)
    texts = list(found.get(whole, ()))
    if before.strip() and plain(last) in found:
        texts += [f"{before}{shown}" for shown in found[plain(last)]]
    texts = [one for one in dict.fromkeys(texts) if plain(one) != plain(typed.strip())]
    return _public(texts[:2 * MOST])[:MOST]


def meant_by(text: str) -> list[str]:
    """The text with words that nothing has put right, where something public then has all.

    Three queries at most.
    """
    typed = as_read(text[:MOST_LETTERS])
    words = [word for word in list(WORD.finditer(plain(typed)))[:MOST_WORDS]
             if len(word.group()) >= LEAST_MEANT and not word.group().isdigit()]
    known = _known([word.group() for word in words])
    unknown = [word for word, is_known in zip(words, known, strict=True) if not is_known]
    if not unknown:
        return []
    texts, near = [typed], _near({match.group() for match in unknown})
    for match in unknown[::-1]:         # from the end, so that places before it stay
        texts = [one[:match.start()] + other + one[match.end():]
                 for one in texts for other in near[match.group()]][:2 * MOST]
    return _public(texts)[:MOST]


def _last_word(text):
    found = [match.start() for match in WORD.finditer(plain(text))]
    at = found[-1] if found and WORD.match(plain(text[-1:])) else len(text)
    return text[:at], text[at:]


def _begun(start: str) -> list[str]:
    """What is printed of the terms that begin so: names first, then the shortest."""
    condition, values = beginning(connection, '"key"', start)
    with connection.cursor() as cursor:
        cursor.execute(f"""SELECT shown FROM (SELECT * FROM {TABLE} WHERE {condition} LIMIT %s) so
                           ORDER BY is_name DESC, length("key"), "key" LIMIT %s""",
                       [*values, MOST_KNOWN, 2 * MOST])
        return [shown for shown, in cursor.fetchall()]


def _near(words: Collection[str]) -> dict[str, list[str]]:
    """For each word the known ones a letter or two from it. One query.

    Of those with the same beginning or end.
    """
    ways = [(word, *way) for word in words for way in _ways(word)]
    select = " UNION ALL ".join(
        f"""SELECT * FROM (SELECT {n}, "key", shown FROM {TABLE} WHERE {condition}
            AND length("key") BETWEEN %s AND %s LIMIT %s) of_{n}"""
        for n, (_, condition, _) in enumerate(ways))
    asked: list[str | int] = []
    for word, _, values in ways:
        asked += [*values, len(word) - MOST_EDITS, len(word) + MOST_EDITS, MOST_KNOWN]
    known: dict[str, dict[str, str]] = {word: {} for word in words}
    with connection.cursor() as cursor:
        cursor.execute(select, asked)
        for n, key, shown in cursor.fetchall():
            known[ways[n][0]][key] = shown
    return {word: [found[key] for key in nearest(word, found)] for word, found in known.items()}


def _ways(word: str) -> Iterator[tuple[str, list[str]]]:
    """Conditions of terms that begin, or end, as the word does, each with its values."""
    first, last = halves(word)
    yield beginning(connection, '"key"', first)
    yield beginning(connection, "backwards", last[::-1])


def _known(words: list[str]) -> list[bool]:
    """Whether some term begins so."""
    if not words:
        return []
    ways = [beginning(connection, '"key"', word) for word in words]
    select = " UNION ALL ".join(f"SELECT EXISTS (SELECT 1 FROM {TABLE} WHERE {condition}), {n}"
                                for n, (condition, _) in enumerate(ways))
    with connection.cursor() as cursor:
        cursor.execute(f"{select} ORDER BY 2", [value for _, values in ways for value in values])
        return [bool(found) for found, _ in cursor.fetchall()]


def _public(texts: Iterable[str]) -> list[str]:
    """Those texts all of whose words something public has."""
    asked = [(text, question) for text in texts if (question := read_question(text))]
    wanted: list[Wanted] = [
        AnyOf(tuple(_has(kind, question) for kind in (UNIT, OTHER))) for _, question in asked]
    found = by_group(connection, [[one] for one in wanted], 1)
    return [text for (text, _), keys in zip(asked, found, strict=True) if keys]


def _has(kind, question):
    return AllOf(tuple(
        AnyOf((Token(kind + ANY + word.whole), AllOf(tuple(
            Token(kind + ANY + piece) for piece in word.pieces)))) for word in question.words))

