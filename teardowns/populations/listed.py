"""The numbers of all public units as columns."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

COLUMNS = ("claimed_power", "capability", "capability_low", "capability_high", "measured_power",
           "mass", "bulk_capacitance", "insulation_margin")


@dataclass(frozen=True, slots=True)
class ListedNumbers:
    """pks : (n,) int, ascending; table : (n, 8) float in SI units, a column each of COLUMNS, NaN
    where unknown; each lies in one piece, for it is read alone. `numbers["mass"]` is one column."""

    pks: np.ndarray
    table: np.ndarray

    @classmethod
    def of_rows(cls, rows: Iterable[Sequence[Any]]) -> ListedNumbers:
        """rows : pk and COLUMNS of each, None where unknown"""
        found = np.array(list(rows), float).reshape(-1, 1 + len(COLUMNS))
        found = found[np.argsort(found[:, 0])]
        return cls(found[:, 0].astype(np.int64), np.asfortranarray(found[:, 1:]))

    def __getitem__(self, name: str) -> np.ndarray:
        return self.table[:, COLUMNS.index(name)]

    def with_changes(self, gone: Sequence[int], rows: Iterable[Sequence[Any]]) -> ListedNumbers:
        """The same without some units, and with these rows."""
        stay = ~self.among(gone)
        new = ListedNumbers.of_rows(rows)
        pks = np.concatenate([self.pks[stay], new.pks])
        order = np.argsort(pks, kind="stable")
        table = np.concatenate([self.table[stay], new.table])[order]
        return ListedNumbers(pks[order], np.asfortranarray(table))

    def among(self, pks: Sequence[int] | np.ndarray) -> np.ndarray:
        """(n,) bool, which rows are of these units."""
        wanted = np.asarray(pks, np.int64)
        flags = np.zeros(len(self.pks), bool)
        if len(self.pks):
            at = np.minimum(np.searchsorted(self.pks, wanted), len(self.pks) - 1)
            flags[at[self.pks[at] == wanted]] = True
        return flags

    def place(self, pk: int | None) -> int | None:
        """The row of a unit; None where it is not public."""
        if pk is None:
            return None
        at = int(np.searchsorted(self.pks, pk))
        return at if at < len(self.pks) and self.pks[at] == pk else None
