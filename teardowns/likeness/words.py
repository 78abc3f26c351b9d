"""The words of an inverted index over features: who shares one may be alike, all others are not.

A word is a signed 64 bit number. Equal texts share a word; numbers share one where their intervals
of two standard uncertainties meet; pictures share one where a quarter of their bits is the same.
"""
from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from hashlib import blake2b
from math import floor, log

from .features import Feature

# Width of a bin, in ln: near the uncertainty of a length by calliper and of turns counted twice.
BIN = 0.05
MOST_BINS = 6                # a value that is known worse than that finds nothing
BANDS, BAND_BITS = 4, 16     # of a 64 bit hash: two that differ in three bits or fewer share a band


def words(found: Iterable[Feature]) -> frozenset[int]:
    return frozenset(word for one in found for word in words_of(one))


@lru_cache(maxsize=20_000)               # a unit's own: asked for anew with each other unit
def words_of(one: Feature) -> tuple[int, ...]:
    """The words of one feature; a picture has four, a number one for each bin it may lie in."""
    if one.picture is not None:
        bits = one.picture & (1 << 64) - 1
        return tuple(_word(f"{one.slot}|{band}|{bits >> band * BAND_BITS & 0xFFFF}")
                     for band in range(BANDS))
    if one.value is not None:
        return tuple(_word(f"{one.slot}|{place}") for place in _bins(one.value, one.u))
    return (_word(f"{one.slot}|{one.text}"),)


def _bins(value: float, u: float) -> range:
    """Numbers of the bins that value ± 2 u touches; none where that is too wide or reaches 0."""
    if value - 2 * u <= 0:
        return range(0)
    low, high = (floor(log(end) / BIN) for end in (value - 2 * u, value + 2 * u))
    return range(low, high + 1) if high - low < MOST_BINS else range(0)


def _word(text: str) -> int:
    return int.from_bytes(blake2b(text.encode(), digest_size=8).digest(), "big", signed=True)
