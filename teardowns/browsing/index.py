"""All listed units at once: what a page of a narrowed, sorted list needs, without a database.

A unit has a slot, for as long as the index lives; one that is listed no more keeps it, empty. An
index is never altered: `changed` makes the next one, so that readers need no lock.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing import bits
from teardowns.browsing.bits import Words
from teardowns.browsing.facets import Facet
from teardowns.browsing.orders import Order, sort_keys
from teardowns.browsing.values import Among, Values, no_values

Columns = Mapping[str, Sequence[Any]]          # by name, a value a unit


@dataclass(frozen=True)
class Index:
    pks: NDArray[np.int64]                 # (n,) by slot
    slot_of: dict[int, int]                # shared with all that follow: it only grows
    listed: Words
    values: Mapping[str, Values]           # by facet
    orders: Mapping[str, Order]            # by name
    columns: Mapping[str, str]             # name of an order → the column that it sorts by
    kept: dict[Any, Any] = field(default_factory=dict)      # what was asked last, see finding

    @classmethod
    def empty(cls, facets: Iterable[Facet], columns: Mapping[str, str]) -> Index:
        """columns : name of an order → the column that it sorts by, largest first"""
        nothing = np.empty(0, np.int64)
        return cls(nothing, {}, np.empty(0, np.uint64),
                   {facet.code: no_values(facet) for facet in facets},
                   {name: Order.of(sort_keys((), nothing), nothing) for name in columns}, columns)

    @property
    def size(self) -> int:
        """Slots, empty ones included."""
        return len(self.pks)

    def changed(self, pks: Sequence[int], is_listed: Sequence[bool], columns: Columns) -> Index:
        """The index after these units changed: other rows, new ones, some listed no more."""
        for pk in pks:
            self.slot_of.setdefault(pk, len(self.slot_of))
        slots = np.array([self.slot_of[pk] for pk in pks], np.int64)
        n = len(self.slot_of)
        all_pks = np.concatenate([self.pks, np.zeros(n - self.size, np.int64)])
        all_pks[slots] = pks
        here = np.array(is_listed, bool)
        listed = bits.grown(self.listed, n)
        bits.without(listed, slots)
        bits.put(listed, slots[here])
        values = {code: each.changed(slots, columns[each.facet.column], n)
                  for code, each in self.values.items()}
        gone = np.zeros(n, bool)
        gone[slots] = True
        keys = {name: sort_keys(columns[column], all_pks[slots])
                for name, column in self.columns.items()}
        orders = {name: order.changed(gone, Order.of(keys[name][here], slots[here]))
                  for name, order in self.orders.items()}
        return Index(all_pks, self.slot_of, listed, values, orders, self.columns)

    def slots(self, pks: Sequence[int]) -> NDArray[np.int64]:
        """Of these units, in their order; of one that the index does not have there is none."""
        if self.rises:                     # a dictionary of so many is slow to look into
            wanted = np.array(pks, np.int64)
            at = np.minimum(np.searchsorted(self.pks, wanted), max(self.size - 1, 0))
            return at[self.pks[at] == wanted] if self.size else at[:0]
        found = np.array([self.slot_of.get(pk, self.size) for pk in pks], np.int64)
        return found[found < self.size]

    @cached_property
    def rises(self) -> bool:
        """Whether slots follow numbers, as they do where all was read at once."""
        return bool((np.diff(self.pks) > 0).all())

    @cached_property
    def counts(self) -> Mapping[str, Mapping[str, int]]:
        """Of all units that are listed, by facet and code."""
        everything = Among(self.listed, self.size)
        return {code: values.counts(everything, ()) for code, values in self.values.items()}
