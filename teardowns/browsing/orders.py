"""Orders of units: each a permutation by a unique key, so that a page begins after a key."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing.bits import Flags

START = "start"                       # the place before everything
FEW = 200                             # changes: what stays between them is copied piece by piece


class BadPlace(ValueError):
    """What shall say where a page begins does not."""


def sort_keys(values: Sequence[float | None], pks: NDArray[np.int64]) -> NDArray[np.complex128]:
    """(n,) keys that rise from the largest value to the smallest, newer units first among equals.

    Unknown values (None) come last. Complex numbers are sorted by their real part, then by the
    other: one number a unit, and no two alike.
    """
    keys = np.empty(len(pks), np.complex128)
    keys.real = [np.inf if value is None else -float(value) for value in values]
    keys.imag = -pks
    return keys


def written(key: complex) -> str:
    """A key as it stands in an address."""
    return f"{float(key.real)!r}_{-int(key.imag)}"


def read_place(text: str) -> complex:
    """The key of a written one. Raises BadPlace."""
    value, _, pk = text.partition("_")
    try:
        return complex(_number(value), -int(pk))
    except (ValueError, OverflowError):
        raise BadPlace("This is no place in a list: open the list without it.") from None


def _number(text):
    value = float(text)
    if value != value or len(text) > 40:
        raise ValueError
    return value


@dataclass(frozen=True, slots=True)
class Order:
    keys: NDArray[np.complex128]            # (m,) rising, no two alike
    slots: NDArray[np.int64]                # (m,) the units of these keys

    @classmethod
    def of(cls, keys: NDArray[np.complex128], slots: NDArray[np.int64]) -> Order:
        order = np.argsort(keys)
        return cls(keys[order], slots[order])

    def changed(self, gone: Flags, come: Order) -> Order:
        """Without some slots, and with those of another order where they belong."""
        out = np.flatnonzero(gone[self.slots])
        if len(out) + len(come.keys) <= FEW:
            places = np.searchsorted(self.keys, come.keys)
            return Order(_spliced(self.keys, out, places, come.keys),
                         _spliced(self.slots, out, places, come.slots))
        keys, slots = np.delete(self.keys, out), np.delete(self.slots, out)
        places = np.searchsorted(keys, come.keys)
        return Order(np.insert(keys, places, come.keys), np.insert(slots, places, come.slots))

    def place_after(self, key: complex) -> int:
        """How many come up to this key, itself included."""
        return int(np.searchsorted(self.keys, key, side="right"))


def _spliced(old, out, places, new):
    """Without the elements at `out`, and with each new one before the element at its place."""
    steps = sorted([(place, 0, at) for at, place in enumerate(places.tolist())]
                   + [(place, 1, 0) for place in out.tolist()])
    pieces, begin = [], 0
    for place, is_out, at in steps:
        pieces.append(old[begin:place])
        begin = place + is_out
        if not is_out:
            pieces.append(new[at:at + 1])
    return np.concatenate([*pieces, old[begin:]])


def first_of(slots: NDArray[np.int64], wanted: Flags, size: int, share: float) -> NDArray[np.int64]:
    """Places of the first `size` of the slots that are wanted.

    share : of all slots that are wanted, about; only how far is looked at once depends on it
    """
    found: list[NDArray[np.int64]] = []
    left, start, width = size, 0, int(2 * size / max(share, 1e-6)) + 64
    while left > 0 and start < len(slots):
        hits = np.flatnonzero(wanted[slots[start:start + width]])[:left]
        found.append(hits + start)
        left, start, width = left - len(hits), start + width, 4 * width
    return np.concatenate(found) if found else np.empty(0, np.int64)
