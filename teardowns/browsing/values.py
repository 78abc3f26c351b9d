"""The codes of one facet, by unit: counted, and narrowed by, for any set of units.

Few values are a packed set of units each; of many, each unit's codes are listed. Neither is altered
once it is made: a change makes another one, and whoever counts meanwhile is not disturbed.
"""
from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing import bits
from teardowns.browsing.bits import Flags, Words
from teardowns.browsing.facets import Facet

MOST_COUNTED = 50                  # codes of a facet that has many
FEW = 8                            # times as many codes as units: these are looked up one by one
Slots = NDArray[np.int64]


class Values(Protocol):
    @property
    def facet(self) -> Facet: ...
    def changed(self, slots: Slots, values: Sequence[Hashable], n: int) -> Values: ...
    def chosen(self, codes: Sequence[str], n: int) -> Words: ...
    def counts(self, among: Among, codes: Sequence[str]) -> dict[str, int]: ...


def no_values(facet: Facet) -> Values:
    """Of no unit yet."""
    return Many.empty(facet) if facet.has_many else Few.empty(facet)


class Among:
    """A set of units, packed; as flags where somebody asks for them."""

    def __init__(self, words: Words, n: int):
        self.words, self.n = words, n

    @cached_property
    def flags(self) -> Flags:
        return bits.unpack(self.words, self.n)

    @cached_property
    def slots(self) -> Slots:
        return bits.members(self.words, self.some, self.n)

    @cached_property
    def some(self) -> NDArray[np.int64]:
        """Places of the words that hold any."""
        return np.flatnonzero(self.words)

    @cached_property
    def total(self) -> int:
        return int(bits.count(self.words))


@dataclass(frozen=True, slots=True)
class _Entries:
    """Which slot has which code: (k,) each."""

    slots: Slots
    codes: NDArray[np.int64]
    names: tuple[str, ...]            # by number of the code


def _entries(facet: Facet, slots: Slots, values: Sequence[Hashable],
             known: Sequence[str]) -> _Entries:
    """Each different value is read once, however many units have it."""
    numbers = {name: number for number, name in enumerate(known)}
    kinds: dict[Hashable, int] = {}
    kind = np.array([kinds.setdefault(value, len(kinds)) for value in values], np.int64)
    codes = [[numbers.setdefault(code, len(numbers)) for code in facet.codes(value)]
             for value in kinds]
    lengths = np.array([len(each) for each in codes], np.int64)
    flat = np.array([code for each in codes for code in each], np.int64)
    starts = np.cumsum(lengths) - lengths
    many = lengths[kind] if len(kind) else np.empty(0, np.int64)
    within = np.arange(many.sum()) - np.repeat(np.cumsum(many) - many, many)
    return _Entries(np.repeat(slots, many), flat[np.repeat(starts[kind], many) + within],
                    tuple(numbers))


@dataclass(frozen=True, slots=True)
class Few:
    facet: Facet
    names: tuple[str, ...]            # (v,) codes
    sets: Words                       # (v, words)

    @classmethod
    def empty(cls, facet: Facet) -> Few:
        return cls(facet, tuple(facet.values), np.zeros((len(facet.values), 0), np.uint64))

    def changed(self, slots: Slots, values: Sequence[Hashable], n: int) -> Few:
        found = _entries(self.facet, slots, values, self.names)
        sets = np.zeros((len(found.names), bits.words_for(n)), np.uint64)
        sets[:len(self.sets), :self.sets.shape[1]] = self.sets
        if self.sets.size:
            bits.without(sets, slots)
        for number in np.unique(found.codes):
            bits.put(sets[number], found.slots[found.codes == number])
        return Few(self.facet, found.names, sets)

    def chosen(self, codes: Sequence[str], n: int) -> Words:
        """The units that have any of these codes."""
        rows = [number for number, name in enumerate(self.names) if name in codes]
        return np.bitwise_or.reduce(self.sets[rows], axis=0) if rows \
            else np.zeros(bits.words_for(n), np.uint64)

    def counts(self, among: Among, codes: Sequence[str]) -> dict[str, int]:
        """How many of these units have each code that any has, and each of `codes`."""
        numbers = bits.count_both(self.sets, among.words, among.some).tolist()
        found = {name: n for name, n in zip(self.names, numbers, strict=True)
                 if n or name in codes}
        return found | {code: 0 for code in codes if code not in found}


@dataclass(frozen=True)
class Many:
    facet: Facet
    names: tuple[str, ...]
    slots: Slots                      # (k,) rising, with `codes`
    codes: NDArray[np.int64]
    starts: NDArray[np.int64]         # (n + 1,) where the codes of each slot begin
    alphabet: NDArray[np.int64]       # (v,) place of each name among the sorted ones

    @classmethod
    def empty(cls, facet: Facet) -> Many:
        nothing = np.empty(0, np.int64)
        return cls(facet, (), nothing, nothing, np.zeros(1, np.int64), nothing)

    def changed(self, slots: Slots, values: Sequence[Hashable], n: int) -> Many:
        found = _entries(self.facet, slots, values, self.names)
        kept = np.ones(n, bool)
        kept[slots] = False
        kept = kept[self.slots]
        all_slots = np.concatenate([self.slots[kept], found.slots])
        order = np.argsort(all_slots, kind="stable")
        codes = np.concatenate([self.codes[kept], found.codes])[order]
        starts = np.zeros(n + 1, np.int64)
        np.cumsum(np.bincount(all_slots, minlength=n), out=starts[1:])
        return Many(self.facet, found.names, all_slots[order], codes, starts,
                    _ranks(found.names))

    def chosen(self, codes: Sequence[str], n: int) -> Words:
        return bits.of_slots(self.slots[np.isin(self.codes, self._numbers(codes))], n)

    def counts(self, among: Among, codes: Sequence[str]) -> dict[str, int]:
        """The same for the codes that most of them have, the most frequent first."""
        numbers = self._tally(among)
        there = np.flatnonzero(numbers)
        ranked = there[np.lexsort((self.alphabet[there], -numbers[there]))][:MOST_COUNTED]
        wanted = [*ranked.tolist(), *self._numbers(codes)]
        found = {self.names[at]: int(numbers[at]) for at in wanted}
        return found | {code: 0 for code in codes if code not in found}

    @cached_property
    def only(self) -> NDArray[np.unsignedinteger] | None:
        """(n,) the code of each slot, one more than there are where it has none; nothing where some
        slot has several. In as few bytes as will do: that is what counting takes."""
        lengths = np.diff(self.starts)
        if lengths.max(initial=0) > 1:
            return None
        only = np.full(len(lengths), len(self.names), np.min_scalar_type(len(self.names)))
        only[self.slots] = self.codes
        return only

    def _tally(self, among):
        v = len(self.names)
        if self.only is not None:
            return np.bincount(self.only[among.slots], minlength=v + 1)[:v]
        return np.bincount(self._codes_of(among), minlength=v)

    def _codes_of(self, among):
        """Those of all units of a set, in no order."""
        if FEW * among.total > len(self.slots):
            # Three times as quick as to take by the flags themselves.
            return self.codes.take(np.flatnonzero(among.flags[self.slots]))
        slots = among.slots
        begin = self.starts[slots]
        lengths = self.starts[slots + 1] - begin
        behind = np.arange(lengths.sum()) - np.repeat(np.cumsum(lengths) - lengths, lengths)
        return self.codes[np.repeat(begin, lengths) + behind]

    def _numbers(self, codes):
        return [at for at, name in enumerate(self.names) if name in codes] if codes else []


def _ranks(names):
    ranks = np.empty(len(names), np.int64)
    ranks[sorted(range(len(names)), key=names.__getitem__)] = np.arange(len(names))
    return ranks
