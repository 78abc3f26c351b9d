"""One page of what was chosen, with what each other choice would leave."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing import bits
from teardowns.browsing.bits import Words
from teardowns.browsing.index import Index
from teardowns.browsing.orders import START, BadPlace, first_of, read_place, written
from teardowns.browsing.values import Among

KEPT = 32                              # answers of an index
RANK = "rank"                          # the order of the units that a search found
Choices = Mapping[str, Sequence[str]]
Counts = dict[str, dict[str, int]]


@dataclass(frozen=True, slots=True)
class Found:
    total: int                         # units that have all that was chosen
    pks: list[int]                     # of this page, in their order
    # By facet and code: how many there would be with this code as the only choice of its facet,
    # all other choices kept. Only codes that some have, and the chosen ones.
    counts: Counts
    after: str                         # where the next page begins; "" on the last
    before: str                        # where the page before begins; "" on the first
    first: int = 1                     # which one of all the first of this page is
    among: Among | None = field(default=None, compare=False, repr=False)      # all of them


def find(index: Index, choices: Choices, *, sort: str, after: str = "", size: int = 25,
         within: Sequence[int] | None = None) -> Found:
    """Units that have, of each facet with a choice, any of the codes chosen.

    within : numbers of units, as a search found them; sort : an order of the index, or RANK for
    theirs. Raises KeyError for a facet or an order that is not there, BadPlace for `after`.
    """
    slots = index.slots(within or ())
    among, counts = (_narrowed_and_counted(index, choices, slots) if within is not None
                     else _kept(index, choices))
    line = _Ranked(slots) if sort == RANK else _Sorted(index, sort)
    return Found(among.total, *_page(index, line, among, after, size, counts))


def _kept(index: Index, choices: Choices) -> tuple[Among, Counts]:
    """The same for all pages of a list, and for whoever asks the same: the last are kept."""
    key = tuple(sorted((code, tuple(codes)) for code, codes in choices.items() if codes))
    answer = index.kept.get(key)
    if answer is None:
        if len(index.kept) >= KEPT:
            index.kept.clear()
        answer = index.kept[key] = _narrowed_and_counted(index, choices, None)
    among, counts = answer
    return among, {code: dict(found) for code, found in counts.items()}


def _narrowed_and_counted(index: Index, choices: Choices,
                          slots: NDArray[np.int64] | None) -> tuple[Among, Counts]:
    among, without = _narrowed(index, choices, slots)
    return among, {code: _counts(index, code, without.get(code, among), choices.get(code, ()))
                   for code in index.values}


def _narrowed(index: Index, choices: Choices,
              slots: NDArray[np.int64] | None) -> tuple[Among, dict[str, Among]]:
    """The units chosen, and for each facet with a choice those chosen by all others."""
    base = index.listed
    if slots is not None:
        base = base & bits.of_slots(slots, index.size)
    chosen = {code: index.values[code].chosen(codes, index.size)
              for code, codes in choices.items() if codes}
    without = {code: Among(_all(base, [each for other, each in chosen.items() if other != code]),
                           index.size) for code in chosen}
    return Among(_all(base, list(chosen.values())), index.size), without


def _all(base: Words, sets: list[Words]) -> Words:
    for each in sets:
        base = base & each
    return base


def _counts(index: Index, facet: str, among: Among, codes: Sequence[str]) -> dict[str, int]:
    """Those of all units are known already."""
    if among.words is index.listed and not codes:
        return dict(index.counts[facet])
    return index.values[facet].counts(among, codes)


class _Sorted:
    """An order of the index, whose places are keys: they hold when units come and go."""

    def __init__(self, index: Index, name: str):
        self.order = index.orders[name]
        self.slots = self.order.slots

    def begin(self, place: str) -> int:
        return self.order.place_after(read_place(place))

    def place(self, at: int) -> str:
        return written(complex(self.order.keys[at]))


class _Ranked:
    """The order of a search, whose places are numbers: it is made anew each time."""

    def __init__(self, slots: NDArray[np.int64]):
        self.slots = slots

    def begin(self, place: str) -> int:
        if not (place.isascii() and place.isdigit() and len(place) < 10):
            raise BadPlace("This is no place in a list: open the list without it.")
        return min(int(place), len(self.slots))

    def place(self, at: int) -> str:
        return str(at + 1)


def _page(index, line, among, after, size, counts):
    start = 0 if after in ("", START) else line.begin(after)
    share = among.total / max(len(line.slots), 1)
    ahead = start + first_of(line.slots[start:], among.flags, size + 1, share)
    back = start - 1 - first_of(line.slots[:start][::-1], among.flags, size + 1, share)
    shown = ahead[:size]
    later = line.place(shown[-1]) if len(ahead) > size else ""
    earlier = line.place(back[size]) if len(back) > size else START if len(back) else ""
    before = int(np.count_nonzero(among.flags[line.slots[:start]]))
    return index.pks[line.slots[shown]].tolist(), counts, later, earlier, before + 1, among
