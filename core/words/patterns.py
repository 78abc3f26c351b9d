"""English sentences with places for what varies, found again in a finished sentence.

A sentence of the record is finished English: "Not recorded: the turns." Its pattern in the
catalogue is "Not recorded: {p1}." A place `{name}` of the translation takes what stood there, said
in the same language; `{name!s}` takes it as it stands, as names and markings want.
"""
from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

PLACE = re.compile(r"\{(\w+)(!s)?\}")
# What stands at a place: a bracket that opens in it closes in it.
WHOLE = r"(?:[^()]|\((?:[^()]|\([^()]*\))*\))*?"
WORD = re.compile(r"[^\W\d_]{2,}")


@dataclass(frozen=True)
class Pattern:
    text: str                        # of the catalogue, with places
    translation: str
    words: frozenset[str]            # that every sentence of it contains
    letters: int                     # how much of it is said; the more, the surer

    @cached_property
    def quick(self) -> re.Pattern[str]:
        return _regex(self.text, ".*?")

    @cached_property
    def careful(self) -> re.Pattern[str]:
        return _regex(self.text, WHOLE)

    def values(self, text: str) -> dict[str, str] | None:
        """What stands at each place; None where the text is none of its sentences."""
        found = self.quick.fullmatch(text)
        if found and _closes(text) and not all(map(_closes, found.groups(""))):
            found = self.careful.fullmatch(text)
        return found.groupdict("") if found else None


@dataclass(frozen=True)
class Match:
    translation: str
    values: dict[str, str]           # what stood at each place
    letters: int                     # of the pattern

    @property
    def said(self) -> list[str]:
        """Names of the places whose value is said in turn."""
        return [name for name, as_it_stands in PLACE.findall(self.translation) if not as_it_stands]

    def takes_in(self, end: re.Pattern[str]) -> bool:
        return any(end.search(value) for value in self.values.values())

    def cuts(self, listed: list[str]) -> bool:
        """Whether a place takes in a joint of a list: piece, joint, piece, …"""
        return any(joint in value for joint in listed[1::2] for value in self.values.values())

    def filled(self, said: dict[str, str]) -> str:
        return PLACE.sub(
            lambda place: self.values[place[1]] if place[2] else said[place[1]], self.translation)


def pattern(text: str, translation: str) -> Pattern:
    parts = PLACE.split(text)                  # literal, name, conversion, literal, …
    literals = parts[::3]
    return Pattern(text, translation, _whole_words(literals), sum(map(len, literals)))


def _regex(text, stands):
    """stands : what a place takes. Of two side by side the second is a clause that may follow."""
    parts = PLACE.split(text)
    literals = parts[::3]
    places = [f"(?P<{name}>(?:[,;.:]\\s{stands})?)" if n and not literals[n] else
              f"(?P<{name}>{stands})" for n, name in enumerate(parts[1::3])]
    return re.compile("".join(re.escape(literal) + place for literal, place in
                              zip(literals, [*places, ""], strict=True)), re.DOTALL)


def _closes(text):
    return text.count("(") == text.count(")")


def _whole_words(literals):
    """Words of the literals that no place touches: a place may continue the word beside it."""
    last = len(literals) - 1
    return frozenset(
        found[0] for n, literal in enumerate(literals) for found in WORD.finditer(literal)
        if (found.start() > 0 or n == 0) and (found.end() < len(literal) or n == last))


class Patterns:
    """Many patterns; of those that fit, the one that says most of a sentence stands first."""

    def __init__(self, pairs: Iterable[tuple[str, str]]):
        self._by_word: dict[str, list[Pattern]] = defaultdict(list)
        for text, translation in pairs:
            one = pattern(text, translation)
            longest = max(one.words, key=lambda word: (len(word), word), default="")
            self._by_word[longest].append(one)

    def matches(self, text: str) -> Iterator[Match]:
        words = {found[0] for found in WORD.finditer(text)}
        fitting = [one for word in (*words, "") for one in self._by_word.get(word, ())
                   if one.words <= words]
        for one in sorted(fitting, key=lambda one: (-one.letters, one.text)):
            if (values := one.values(text)) is not None:
                yield Match(one.translation, values, one.letters)
