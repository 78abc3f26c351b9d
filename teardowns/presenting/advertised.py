"""What a port advertises: the 32-bit words of a USB Power Delivery source, in plain words."""
from __future__ import annotations

from collections.abc import Sequence

from teardowns.engine.physics.offers import described
from teardowns.engine.physics.power_objects import PowerObjectError, decode, read_word


def advertised_words(words: Sequence[str]) -> list[str]:
    """`5 V 3 A (0A01912C)` for each word; what cannot be read says why."""
    return [_word(word, first=place == 0) for place, word in enumerate(words)]


def _word(word: str, first: bool) -> str:
    try:
        return f"{described(decode(read_word(word), first))} ({word})"
    except PowerObjectError as error:
        return str(error)
