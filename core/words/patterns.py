"""English sentences with places for what varies, found again in a finished sentence.

A sentence of the record is finished English: "Not recorded: the turns." Its pattern in the
catalogue is "Not recorded: {p1}." A place `{name}` of the translation takes what stood there, said
in the same language; `{name!s}` takes it as it stands, as names and markings want.
"""
from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass

PLACE = re.compile(r"\{(\w+)(!s)?\}")
WORD = re.compile(r"[^\W\d_]{2,}")


@dataclass(frozen=True)
class Pattern:
    text: str                        # of the catalogue, with places
    translation: str
    found: re.Pattern[str]
    words: frozenset[str]            # that every sentence of it contains
    letters: int                     # how much of it is said; the more, the surer


def pattern(text: str, translation: str) -> Pattern:
    parts = PLACE.split(text)                  # literal, name, conversion, literal, …
    literals = parts[::3]
    regex = "".join(
        re.escape(literal) + (f"(?P<{parts[3 * n + 1]}>.*?)" if n < len(literals) - 1 else "")
        for n, literal in enumerate(literals))
    return Pattern(text, translation, re.compile(regex, re.DOTALL), _whole_words(literals),
                   sum(map(len, literals)))


def _whole_words(literals):
    """Words of the literals that no place touches: a place may continue the word beside it."""
    last = len(literals) - 1
    return frozenset(
        found[0] for n, literal in enumerate(literals) for found in WORD.finditer(literal)
        if (found.start() > 0 or n == 0) and (found.end() < len(literal) or n == last))


class Patterns:
    """Many patterns; the one that says most of a sentence is taken, and of those the first."""

    def __init__(self, pairs: Iterable[tuple[str, str]]):
        self._by_word: dict[str, list[Pattern]] = defaultdict(list)
        for text, translation in pairs:
            one = pattern(text, translation)
            rarest = max(one.words, key=lambda word: (len(word), word), default="")
            self._by_word[rarest].append(one)

    def say(self, text: str, said: Callable[[str], str]) -> str | None:
        words = {found[0] for found in WORD.finditer(text)}
        fitting = [one for word in (*words, "") for one in self._by_word.get(word, ())
                   if one.words <= words]
        for one in sorted(fitting, key=lambda one: (-one.letters, one.text)):
            found = one.found.fullmatch(text)
            if found:
                return _filled(one.translation, found.groupdict(), said)
        return None


def _filled(translation, values, said):
    return PLACE.sub(
        lambda place: values[place[1]] if place[2] else said(values[place[1]]), translation)
