"""Sets of units as packed bits: unit k of the index is bit k % 64 of word k // 64."""
from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Words = NDArray[np.uint64]
Flags = NDArray[np.bool_]
WORD = 64
ALL = ~np.uint64(0)
FEW = 4                     # a set is small where four times its words are fewer than all of them


def words_for(n: int) -> int:
    return -(-n // WORD)


def pack(flags: Flags) -> Words:
    """(…, n) flags as (…, words) bits; bits beyond n are 0."""
    n = flags.shape[-1]
    padded = np.zeros((*flags.shape[:-1], words_for(n) * WORD), bool)
    padded[..., :n] = flags
    return np.packbits(padded, axis=-1, bitorder="little").view("<u8").astype(np.uint64)


def unpack(bits: Words, n: int) -> Flags:
    """(words,) bits as (n,) flags."""
    plain = np.ascontiguousarray(bits.astype("<u8", copy=False)).view(np.uint8)
    return np.unpackbits(plain, count=n, bitorder="little").view(bool)


def count(bits: Words) -> NDArray[np.int64]:
    """How many bits are set, along the last axis."""
    return np.bitwise_count(bits).sum(axis=-1, dtype=np.uint32).astype(np.int64)


def of_slots(slots: NDArray[np.int64], n: int) -> Words:
    """The set of these units among n."""
    if FEW * WORD * len(slots) < n:        # each by itself, as its word is made
        made = np.zeros(words_for(n), np.uint64)
        put(made, slots)
        return made
    flags = np.zeros(n, bool)
    flags[slots] = True
    return pack(flags)


def count_both(sets: Words, words: Words, some: NDArray[np.int64]) -> NDArray[np.int64]:
    """How many units each set (v, words) has that another one has as well.

    Where that one lies in few words the others are not read, so that it takes no longer among a
    million units than among a thousand. some : places of the words that hold any of it
    """
    if FEW * len(some) < len(words):
        sets, words = sets[:, some], words[some]
    return count(sets & words)


def members(words: Words, some: NDArray[np.int64], n: int) -> NDArray[np.int64]:
    """The units of a set among n, rising; some : as for counting"""
    if FEW * len(some) >= len(words):
        return np.flatnonzero(unpack(words, n))
    at = np.flatnonzero(unpack(words[some], WORD * len(some)))
    return some[at // WORD] * WORD + at % WORD


def grown(bits: Words, n: int) -> Words:
    """A copy with room for n units; the new ones are not in the sets."""
    made = np.zeros((*bits.shape[:-1], words_for(n)), np.uint64)
    made[..., :bits.shape[-1]] = bits
    return made


def without(bits: Words, slots: NDArray[np.int64]) -> None:
    """Take these units out of the sets, in place."""
    np.bitwise_and.at(bits.T, slots // WORD, _keeping(bits, slots))


def _keeping(bits, slots):
    rest = ~_one(slots)
    return rest if bits.ndim == 1 else np.broadcast_to(rest[:, None], (len(slots), len(bits)))


def put(bits: Words, slots: NDArray[np.int64]) -> None:
    """Put these units into one set, in place."""
    np.bitwise_or.at(bits, slots // WORD, _one(slots))


def _one(slots):
    return np.uint64(1) << (slots % WORD).astype(np.uint64)
