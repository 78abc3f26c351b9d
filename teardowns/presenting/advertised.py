"""What a port advertises: the 32-bit words of a USB Power Delivery source, in plain words.

Layout of the words: USB Power Delivery Specification, Revision 3.1, 6.4.1 "Capabilities Message"
(from memory). Fixed supply: bits 19..10 voltage in 50 mV, 9..0 current in 10 mA. Programmable
supply: bits 24..17 highest and 15..8 lowest voltage in 100 mV, 6..0 current in 50 mA.
"""
from __future__ import annotations

from collections.abc import Iterable

from .numbers import printed, volts, with_unit


def advertised_words(words: Iterable[str]) -> list[str]:
    """`5 V 3 A (0A01912C)` for each word; one of another kind is shown as it is."""
    return [_word(word) for word in words]


def _word(word: str) -> str:
    try:
        bits = int(word, 16)
    except ValueError:
        return f"{word} (not a 32-bit word)"
    meaning = _fixed(bits) if bits >> 30 == 0 else _programmable(bits)
    return f"{meaning} ({word})"


def _fixed(bits: int) -> str:
    return f"{volts((bits >> 10 & 0x3FF) * 0.05)} {_amperes((bits & 0x3FF) * 0.01)}"


def _programmable(bits: int) -> str:
    if bits >> 28 != 0b1100:
        return "battery, variable or adjustable supply"
    low, high = (bits >> 8 & 0xFF) * 0.1, (bits >> 17 & 0xFF) * 0.1
    return f"{printed(low)} to {volts(high)} {_amperes((bits & 0x7F) * 0.05)}"


def _amperes(value: float) -> str:
    return with_unit(printed(value), "A")
