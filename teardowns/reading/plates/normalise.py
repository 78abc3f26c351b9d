"""Look-alike and full-width characters brought to plain ones, with the way back to the original.

Unicode Standard Annex 15 (NFKC) covers full-width forms, unit ligatures and roman numerals; the
look-alikes below are everyday confusions of keyboards and of character recognition.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

_SAME = {
    "~": "∼〜～∿⏦˜",
    "=": "═≡꞊⚌",
    "-": "‐‑‒–−﹣",
    "—": "―⸺─━┄┅╌⏤",
    "×": "✕✖⨯",
    ":": "：︰",
}
_CYRILLIC = dict(zip("АВСЕНКМОРТХаеорсухмц", "ABCEHKMOPTXaeopcyxmz", strict=True))
_SINGLE = {look: plain for plain, looks in _SAME.items() for look in looks} | _CYRILLIC | {"Г": "H"}
_INVISIBLE = frozenset("\u200b\u200c\u200d\u2060\ufeff\u00ad\ufe0e\ufe0f")


@dataclass(frozen=True, slots=True)
class Normalised:
    text: str
    starts: tuple[int, ...]  # (len(text),) where each character begins in the original
    ends: tuple[int, ...]  # (len(text),) where it ends there

    def original(self, start: int, end: int) -> tuple[int, int]:
        """The original offsets of a non-empty piece of the normalised text."""
        return self.starts[start], self.ends[end - 1]


def normalise(text: str) -> Normalised:
    characters: list[str] = []
    starts: list[int] = []
    ends: list[int] = []
    at = 0
    while at < len(text):
        plain, length = _plain(text, at, characters)
        characters += plain
        starts += [at] * len(plain)
        ends += [at + length] * len(plain)
        at += length
    return Normalised("".join(characters), tuple(starts), tuple(ends))


def _plain(text: str, at: int, before: list[str]) -> tuple[str, int]:
    """Plain form of the character at `at`, and how many original characters it stands for."""
    character = text[at]
    if character.isascii():
        return character, 1
    if character in _INVISIBLE:
        return "", 1
    if character == "В":
        return _cyrillic_ve(text, at, before)
    if character in _SINGLE:
        return _SINGLE[character], 1
    # ² or ⑥ as a plain digit would join the number beside it.
    if unicodedata.category(character) == "No":
        return character, 1
    folded = unicodedata.normalize("NFKC", character)
    if len(folded) > 4:  # whole phrases in one character: no part of a plate
        return character, 1
    return "".join(_SINGLE.get(c, c) for c in folded), 1


def _cyrillic_ve(text: str, at: int, before: list[str]) -> tuple[str, int]:
    """В is the volt and Вт the watt of Cyrillic plates, elsewhere a look-alike of B."""
    last = next((c for c in reversed(before[-3:]) if not c.isspace()), "")
    if not last.isdigit():
        return "B", 1
    return ("W", 2) if text[at + 1 : at + 2] == "т" else ("V", 1)
