"""An English text of the site in another language."""
from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, lru_cache
from pathlib import Path

import polib
from django.conf import settings
from django.utils.translation import get_language

from .numbers import is_measure, numbers_in
from .patterns import PLACE, Patterns

SENTENCE_END = re.compile(r"(?<=[.?!:;])\s+(?=[“‘(A-ZÄÖÜ0-9])")
LIST = re.compile(r"(, and |, or | and | or |, |; | · )")
LETTERS = re.compile(r"[^\W\d_]{2,}")


def said(text: str, language: str | None = None) -> str:
    """`text` in this language, or in that of the request; English where nothing is known."""
    code = (language or get_language() or "en").split("-")[0]
    if code == "en" or not text:
        return text
    return _said(code, str(text))


@lru_cache(maxsize=50_000)
def _said(code: str, text: str) -> str:
    return catalogue(code).say(text)


@cache
def catalogue(code: str) -> Catalogue:
    return Catalogue(code, {entry.msgid: entry.msgstr for entry in polib.mofile(str(mo_file(code)))
                            if entry.msgid and not entry.msgid_plural})


def po_file(code: str) -> Path:
    return Path(settings.LOCALE_PATHS[0]) / code / "LC_MESSAGES" / "django.po"


def mo_file(code: str) -> Path:
    return po_file(code).with_suffix(".mo")


class Catalogue:
    """What one language knows; `missed`, if set, is told every text that it does not."""

    missed: Callable[[str], object] | None = None

    def __init__(self, code: str, words: dict[str, str]):
        self.code = code
        self._words = {text: words[text] for text in words if not PLACE.search(text)}
        self._patterns = Patterns((text, words[text]) for text in words if PLACE.search(text))

    def say(self, text: str) -> str:
        bare = text.strip()
        if not LETTERS.search(bare) or is_measure(bare):
            return numbers_in(self.code, text)
        known = self._known(bare)
        if known is None:
            known = self._in_pieces(bare)
        if known is None:
            if self.missed:
                self.missed(bare)
            known = numbers_in(self.code, bare)
        return text.replace(bare, known) if bare != text else known

    def _known(self, text: str) -> str | None:
        if text in self._words:
            return self._words[text]
        other = _swapped(text)
        if other in self._words:
            return _as_begun(text, self._words[other])
        known = self._patterns.say(text, self.say)
        if known is None:
            known = self._patterns.say(other, self.say)
            known = known and _as_begun(text, known)
        return known

    def _in_pieces(self, text: str) -> str | None:
        """Sentence by sentence; a list only where every piece of it is known."""
        sentences = SENTENCE_END.split(text)
        if len(sentences) > 1:
            return " ".join(map(self.say, sentences))
        pieces = LIST.split(text)
        if len(pieces) == 1:
            return None
        known = [self._piece(piece) for piece in pieces[::2]]
        if None in known:
            return None
        joints = [self._words.get(joint, joint) for joint in pieces[1::2]]
        return "".join(part for pair in zip(known, [*joints, ""], strict=True) for part in pair)

    def _piece(self, text: str) -> str | None:
        if not LETTERS.search(text) or is_measure(text):
            return numbers_in(self.code, text)
        return self._known(text)


def _swapped(text):
    first = text[:1]
    return (first.lower() if first.isupper() else first.upper()) + text[1:]


def _as_begun(text, known):
    """A text that began with a capital goes on doing so."""
    return known[:1].upper() + known[1:] if text[:1].isupper() else known
