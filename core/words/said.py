"""An English text of the site in another language."""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from itertools import takewhile
from pathlib import Path

from django.conf import settings
from django.utils.translation import get_language, override

from .as_written import AsWritten
from .catalogue_file import read_translations
from .numbers import is_measure, numbers_in
from .patterns import PLACE, Patterns

SENTENCE_END = re.compile(r"(?<=[.?!:;])\s+(?=[“‘(A-ZÄÖÜ0-9])")
PARAGRAPH = re.compile(r"\n[ \t]*\n\s*")
LINE = re.compile(r"[ \t]*\n[ \t]*")
# How a list is joined, the weakest joint first: "a, b; c" is two pieces, and one of them has two.
# What stands in brackets is no list of its own.
JOINTS = tuple(re.compile(rf"({joint})(?![^()]*\))") for joint in (
    "; | · ", ": ", ", and |, or |, ", " and | or "))
# A name that has brackets itself, such as a heading of a file: it stays as it is.
NESTED = re.compile(r"([^()]+) (\(.*\(.*\).*\))", re.DOTALL)
ASIDE = re.compile(r"(.+) \(([^()]*)\)", re.DOTALL)
CAPITALS = re.compile(r"[^\W\d_a-zäöüß]+[A-ZÄÖÜ\d.,+−/-]*[a-z]?|[A-Za-z\d]+_\w+,?")
SURE = 8        # letters that have to be known before a text is said that is not known whole
BLANKS = re.compile("[ \u00a0\u2009\u202f]")
COUNTED = re.compile(rf"([−+-]?\d+(?:[.,]\d+)?(?: of \d+)?\.?)({BLANKS.pattern})(\D.*)",
                     re.DOTALL)
LONG_NAMES = (5, 3)       # pieces and joints of a name that has two joints, or one
LETTERS = re.compile(r"[^\W\d_]{2,}")


def said(text: str, language: str | None = None) -> str:
    """`text` in this language, or in that of the request; English where nothing is known."""
    code = (language or get_language() or "en").split("-")[0]
    if code == "en" or not text or isinstance(text, AsWritten):
        return text
    return catalogue(code).say(str(text))


@cache
def catalogue(code: str) -> Catalogue:
    return Catalogue(code, read_translations(mo_file(code)))


def load_catalogues() -> None:
    """What the first reader of each language would wait for."""
    for code, _ in settings.LANGUAGES:
        with override(code):                   # reads Django's own words
            said(".")


def po_file(code: str) -> Path:
    return Path(settings.LOCALE_PATHS[0]) / code / "LC_MESSAGES" / "django.po"


def mo_file(code: str) -> Path:
    return po_file(code).with_suffix(".mo")


@dataclass(frozen=True)
class Said:
    """A text in the language, and what of it nothing was known of."""

    text: str
    missed: tuple[str, ...] = ()

    @property
    def unknown(self) -> int:
        return sum(map(len, self.missed))


class Catalogue:
    """What one language knows; `missed`, if set, is told every text that it does not."""

    missed: Callable[[str], object] | None = None

    def __init__(self, code: str, words: dict[str, str]):
        self.code = code
        self._words = {text: words[text] for text in words if not PLACE.search(text)}
        self._of_any_case = {text.casefold(): words[text] for text in reversed(self._words)}
        self._patterns = Patterns((text, words[text]) for text in words if PLACE.search(text))
        self._said = lru_cache(maxsize=50_000)(self._say)

    def say(self, text: str) -> str:
        said = self._said(text)
        if self.missed:
            for one in said.missed:
                self.missed(one)
        return said.text

    def _say(self, text: str) -> Said:
        if PARAGRAPH.search(text):
            return _joined(map(self._said, PARAGRAPH.split(text)), "\n\n")
        text = LINE.sub(" ", text)
        bare = text.strip()
        if not LETTERS.search(bare) or is_measure(bare):
            return Said(numbers_in(self.code, text))
        if _is_no_word(bare) or PLACE.fullmatch(bare):
            said = self._known(bare) or Said(numbers_in(self.code, bare))
        else:
            said = self._known(bare) or self._best(bare)
        return replace(said, text=text.replace(bare, said.text)) if bare != text else said

    def _known(self, text: str) -> Said | None:
        if text in self._words:
            return Said(self._words[text])
        other = self._of_any_case.get(text.casefold())
        return None if other is None else Said(_as_begun(text, other))

    def _best(self, text: str) -> Said:
        """The first way that knows all of the text, or else the one that knows most of it."""
        least, most = Said(numbers_in(self.code, text), (text,)), len(text) - SURE
        for said in self._ways(text):
            if not said.missed:
                return said
            if said.unknown < min(least.unknown, most):
                least = said
        return least

    def _ways(self, text: str) -> Iterator[Said]:
        """Patterns of one sentence, sentence by sentence, patterns of several sentences, lists.

        A place could take in a whole sentence that follows: that is the way when no other is.
        """
        across = []
        yield from (said for said in self._with_value(text, self._known) if not said.missed)
        for match in self._matches(text):
            if match.takes_in(SENTENCE_END):
                across.append(match)
            else:
                yield self._filled(match, text)
        if SENTENCE_END.search(text):
            yield _joined(self._sentences(text))
        yield from (self._filled(match, text) for match in across)
        yield from self._with_value(text)
        if text[-1] in ".:;," and not (said := self._said(text[:-1])).missed:
            yield Said(said.text + text[-1])
        yield from self._lists(text)

    def _matches(self, text):
        for one in (text, _swapped(text)):
            yield from self._patterns.matches(one)

    def _filled(self, match, begun):
        said = {name: self._said(match.values[name]) for name in match.said}
        text = match.filled({name: one.text for name, one in said.items()})
        return Said(_as_begun(begun, text), _all_missed(said.values()))

    def _sentences(self, text: str) -> Iterator[Said]:
        """As many sentences at once as the catalogue has as one text, else one by one."""
        ends = [*(found.start() for found in SENTENCE_END.finditer(text)), len(text)]
        begin = 0
        while begin < len(text):
            later = [end for end in ends if end > begin]
            end = next((end for end in reversed(later[1:])
                        if end - begin < len(text) and self._is_one(text[begin:end])), later[0])
            yield self._said(text[begin:end])
            begin = end + len(text[end:]) - len(text[end:].lstrip())

    def _is_one(self, text: str) -> bool:
        """Whether it is one text of the catalogue, and no list of several."""
        return self._known(text) is not None or any(
            not one.missed for one in self._whole(text, self._patterns.matches(text)))

    def _whole(self, text, matches):
        yield from (self._filled(match, text) for match in matches
                    if not match.takes_in(SENTENCE_END))
        yield from self._with_value(text)

    def _with_value(self, text: str, asked: Callable[[str], object] = len) -> Iterator[Said]:
        """Words before a value or after a number: "primary switch 102 °C", "52 turns".

        asked : what has to find something in the words, to say them beside the value
        """
        blanks = [blank.span() for blank in BLANKS.finditer(text)]
        if values := list(takewhile(lambda at: _is_no_word(text[at[1]:]), reversed(blanks))):
            start, end = values[-1]
            if asked(text[:start]):
                yield self._beside(text[:start], text[end:], text[start:end])
        if found := COUNTED.fullmatch(text):
            number, blank, words = found.groups()
            if asked(words):
                yield self._beside(number, words, blank)

    def _beside(self, one, other, blank=" "):
        return _joined((self._said(one), self._said(other)), blank)

    def _lists(self, text: str) -> Iterator[Said]:
        """Pieces of a list, where every one of them is known."""
        if aside := ASIDE.fullmatch(text):
            yield self._with_aside(*aside.groups())
        if nested := NESTED.fullmatch(text):
            head = self._said(nested[1])
            yield replace(head, text=f"{head.text} {nested[2]}")
        for joint in JOINTS:
            parts = joint.split(text)
            if len(parts) > 1:
                runs = list(self._runs(parts))
                known = [self._said(run) for run, _ in runs]
                if not _all_missed(known):
                    yield Said("".join(part for one, (_, after) in zip(known, runs, strict=True)
                                       for part in (one.text, self._words.get(after, after))))
                return

    def _runs(self, parts: list[str]) -> Iterator[tuple[str, str]]:
        """Pieces and the joint after each; a name that has a joint inside is one piece."""
        begin = 0
        while begin < len(parts):
            end = next((begin + count for count in LONG_NAMES
                        if count < len(parts) and begin + count <= len(parts)
                        and self._is_one("".join(parts[begin:begin + count]))), begin + 1)
            yield "".join(parts[begin:end]), parts[end] if end < len(parts) else ""
            begin = end + 1

    def _with_aside(self, text, aside):
        """What stands in brackets is often a name that a person gave: it may stay as it is."""
        said, beside = self._said(text), self._said(aside)
        return replace(said, text=f"{said.text} ({aside if beside.missed else beside.text})")


def _joined(pieces, blank=" "):
    pieces = list(pieces)
    return Said(blank.join(one.text for one in pieces), _all_missed(pieces))


def _all_missed(pieces):
    return tuple(missed for one in pieces for missed in one.missed)


def _is_no_word(text):
    """Values and names that are the same in each language: "USB-C1 102 °C", "PRI_SEC"."""
    return all(is_measure(one) or CAPITALS.fullmatch(one) for one in text.split())


def _swapped(text):
    first = text[:1]
    return (first.lower() if first.isupper() else first.upper()) + text[1:]


def _as_begun(text, known):
    """A text that began with a capital goes on doing so."""
    return known[:1].upper() + known[1:] if text[:1].isupper() else known
