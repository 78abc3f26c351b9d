"""An English text of the site in another language."""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path

from django.conf import settings
from django.utils.translation import get_language, override

from .as_written import AsWritten, Quoted
from .catalogue_file import read_translations
from .cuts import APART, SENTENCE_END, Cut, aside, is_no_word, items, sentences, values
from .numbers import is_measure, numbers_in
from .patterns import PLACE, Patterns
from .quotes import quotes_in

PARAGRAPH = re.compile(r"\n[ \t]*\n\s*")
LINE = re.compile(r"[ \t]*\n[ \t]*")
LETTERS = re.compile(r"[^\W\d_]{2,}")
SURE = 8         # letters that have to be known before a text is said that is not known whole
FEW = 10         # letters of a pattern that may as well be the joint of a list: "{p} to {p_2}"
LONGEST = 5      # pieces and joints of a name with joints inside


def said(text: str, language: str | None = None) -> str:
    """`text` in this language, or in that of the request; English where nothing is known."""
    code = (language or get_language() or "en").split("-")[0]
    if code == "en" or not text:
        return text
    if isinstance(text, AsWritten):
        return quotes_in(code, text) if isinstance(text, Quoted) else text
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
        return quotes_in(self.code, said.text)

    def _say(self, text: str) -> Said:
        if PARAGRAPH.search(text):
            return _joined(map(self._said, PARAGRAPH.split(text)), "\n\n")
        text = LINE.sub(" ", text)
        bare = text.strip()
        if not LETTERS.search(bare) or is_measure(bare):
            return Said(numbers_in(self.code, text))
        if is_no_word(bare) or PLACE.fullmatch(bare):
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
        """By a pattern, sentence by sentence, words and their value, item by item of a list.

        A place could take in what follows, the next sentence or the rest of a list: that is the way
        when no other is.
        """
        listed, doubtful = items(text), []
        for match in self._matches(text):
            if match.takes_in(APART) or match.letters < FEW and match.cuts(listed):
                doubtful.append(match)
            else:
                yield self._filled(match, text)
        yield self._in_pieces(sentences(text))
        if not (said := self._in_pieces(listed)).missed:
            yield said
        yield from map(self._in_pieces, values(text))
        yield from (self._filled(match, text) for match in doubtful)
        if text[-1] in ".:;," and not (said := self._said(text[:-1])).missed:
            yield replace(said, text=said.text + text[-1])
        if found := aside(text):
            yield self._with_aside(*found)

    def _matches(self, text):
        for one in (text, _swapped(text)):
            yield from self._patterns.matches(one)

    def _filled(self, match, begun):
        said = {name: self._said(match.values[name]) for name in match.said}
        text = match.filled({name: one.text for name, one in said.items()})
        return Said(_as_begun(begun, text), _all_missed(said.values()))

    def _in_pieces(self, cut: Cut) -> Said:
        """As many pieces at once as the catalogue has as one text, else one by one."""
        said, begin = [], 0
        if len(cut) == 1:
            return Said(cut[0], (cut[0],))
        while begin < len(cut):
            end = next((end for end in range(min(len(cut), begin + LONGEST), begin + 1, -2)
                        if end - begin < len(cut) and self._is_one("".join(cut[begin:end]))),
                       begin + 1)
            joint = "".join(cut[end:end + 1])
            said += [self._said("".join(cut[begin:end])), Said(self._words.get(joint, joint))]
            begin = end + 1
        return _joined(said)

    def _is_one(self, text: str) -> bool:
        """Whether it is one text of the catalogue, with its value, and no list of several."""
        pieces = (piece for cut in values(text) for piece in cut)
        return any(map(self._known, (text, *pieces))) or any(
            not self._filled(match, text).missed for match in self._patterns.matches(text)
            if not match.takes_in(SENTENCE_END))

    def _with_aside(self, text, aside):
        """What stands in brackets is often a name that a person gave: it may stay as it is."""
        said, beside = self._said(text), self._said(aside)
        return replace(said, text=f"{said.text} ({aside if beside.missed else beside.text})")


def _joined(pieces, blank=""):
    pieces = list(pieces)
    return Said(blank.join(one.text for one in pieces), _all_missed(pieces))


def _all_missed(pieces):
    return tuple(missed for one in pieces for missed in one.missed)


def _swapped(text):
    first = text[:1]
    return (first.lower() if first.isupper() else first.upper()) + text[1:]


def _as_begun(text, known):
    """A text that began with a capital goes on doing so."""
    return known[:1].upper() + known[1:] if text[:1].isupper() else known
