"""A printed text cut into the words that an index holds and a question asks for."""
from __future__ import annotations

import re

from .folding import plain

LONGEST = 40                # letters of a word; what is longer is no word that anybody types
WORD = re.compile(r"[^\W_]+")
CHUNK = re.compile(r"\S+")
_UNITS = "mah|wh|va|khz|hz|ma|mv|kv|uf|nf|pf|w|v|a"
# `12 W`, `2,4A`: a number and its unit are one word, with a point; so is a decimal alone.
_QUANTITY = re.compile(
    rf"(?<![^\W_])(?<![.,])([0-9]+)(?:(?:[.,]([0-9]+))? ?({_UNITS})|[.,]([0-9]+))(?![^\W_])")


def words_of(text: str) -> list[str]:
    """Every way in which a text can be asked for word by word, each once.

    >>> sorted(words_of("VQ-45, 2.4 A"))
    ['2', '2.4a', '4', '45', 'a', 'vq', 'vq45']
    """
    small = plain(text)
    found = WORD.findall(small)
    found += [run_together(chunk) for chunk in CHUNK.findall(without_quantities(small))
              if not chunk.isalnum()]
    found += [_quantity(match) for match in _QUANTITY.finditer(small)]
    return list(dict.fromkeys(word for word in found if 0 < len(word) <= LONGEST))


def run_together(text: str) -> str:
    """A marking without what people write between its letters: `pz 63-18` gives `pz6318`."""
    return "".join(WORD.findall(plain(text)))


def chunks_of(text: str) -> list[tuple[str, tuple[str, ...]]]:
    """What stands between blanks, in order: as one word, and the words that it consists of.

    >>> chunks_of("hub 12 W vq-45")
    [('hub', ('hub',)), ('12w', ('12w',)), ('vq45', ('vq', '45'))]
    """
    found, at = [], 0
    small = plain(text)
    for match in _QUANTITY.finditer(small):
        found += [_chunk(chunk) for chunk in CHUNK.findall(small[at:match.start()])]
        found.append((_quantity(match), (_quantity(match),)))
        at = match.end()
    found += [_chunk(chunk) for chunk in CHUNK.findall(small[at:])]
    return [(whole, pieces) for whole, pieces in found if whole]


def without_quantities(small: str) -> str:
    """A plain text with its numbers and units left out: 24 is no piece of `2.4A`."""
    return _QUANTITY.sub(" ", small)


def _chunk(chunk: str) -> tuple[str, tuple[str, ...]]:
    pieces = tuple(WORD.findall(chunk))
    return "".join(pieces), pieces


def _quantity(match: re.Match[str]) -> str:
    whole, decimals, unit, alone = match.groups()
    decimals = (decimals or alone or "").rstrip("0")
    return f"{whole}{'.' if decimals else ''}{decimals}{unit or ''}"
