"""Letters that people, keyboards and readers of print take for each other.

`plain` drops what carries no meaning in a search (case, accents, width), letter by letter, so that
a place in the plain text is the same place in the text. `folded` goes on to what is misread on a
moulded or worn plate. Common practice, no source: the table holds pairs that differ in one stroke.
"""
from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

MISREAD = {                 # what stands for all of them: the letters, as `plain` leaves them
    "0": "oqd",
    "1": "il",
    "2": "z",
    "5": "s",
    "6": "g",
    "8": "b",
}
# Capitals of other alphabets that look like Latin ones, in the small form that `plain` gives.
LOOK_ALIKE = dict(zip("авсенкмортхуіјѕ", "abcehkmoptxyijs", strict=True)) | dict(
    zip("αβεηικμνορτυχζ", "abehikmnoptyxz", strict=True))
SMALL = {"µ": "u", "μ": "u", "ς": "σ"}
_BEYOND_ASCII = re.compile(r"[^\x00-\x7f]")
_FOLD = {letter: sign for sign, letters in MISREAD.items() for letter in letters}


def as_read(text: str) -> str:
    """The text with accents joined to their letters, so that one sign is one letter."""
    return unicodedata.normalize("NFC", text)


def plain(text: str) -> str:
    """Small letters without accents; as long as the text."""
    if text.isascii():
        return text.lower()
    # Of all capitals this one alone becomes two letters.
    return _BEYOND_ASCII.sub(lambda match: _plain(match.group()), text.replace("İ", "I").lower())


def folded(text: str) -> str:
    """What all misreadings of a text have in common; as long as the text.

    >>> folded("PZ6318") == folded("P26318") == folded("pz63I8")
    True
    """
    return "".join(map(_folded, plain(text)))


def looks_like(letter: str) -> str:
    """All letters that fold to what this one does, itself among them."""
    sign = _folded(letter)
    return sign + MISREAD.get(sign, "") + "".join(
        other for other, latin in LOOK_ALIKE.items() if _folded(other) == sign)


@lru_cache(maxsize=4096)
def _plain(letter: str) -> str:
    if letter in SMALL:
        return SMALL[letter]
    bare = unicodedata.normalize("NFKD", letter)
    is_one = all(map(unicodedata.combining, bare[1:]))
    return bare[0].lower()[0] if is_one else letter


@lru_cache(maxsize=4096)
def _folded(letter: str) -> str:
    latin = LOOK_ALIKE.get(letter, letter)
    return _FOLD.get(latin, latin)
