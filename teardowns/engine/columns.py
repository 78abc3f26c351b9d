"""Columns over units (or over cases of units): what every stage reads."""
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

UNKNOWN, EVIDENCE, DERIVED, DEFAULT = range(4)
HOW = ("", "evidence", "derived", "rulebook default")


@dataclass(frozen=True, slots=True)
class Column:
    """One number a row, with its standard uncertainty and where it came from.

    value : (n,) float, SI; NaN where unknown
    u : (n,) float, k = 1, same unit; NaN where unknown
    how : (n,) int8, index into HOW
    """

    value: np.ndarray
    u: np.ndarray
    how: np.ndarray

    def take(self, rows) -> "Column":
        # Always contiguous: numpy's exp and its like may take another path for strided data,
        # and one unit alone must give the bits that it gives among many.
        return Column(*(np.ascontiguousarray(part[rows])
                        for part in (self.value, self.u, self.how)))

    def filled(self, other: "Column") -> "Column":
        """This column, and the other one where this is unknown."""
        gap = np.isnan(self.value)
        return Column(*(np.where(gap, theirs, mine) for mine, theirs in zip(
            (self.value, self.u, self.how), (other.value, other.u, other.how), strict=True)))

    def blank(self, here: np.ndarray) -> "Column":
        """This column, unknown where `here` is true."""
        return Column(np.where(here, np.nan, self.value), np.where(here, np.nan, self.u),
                      np.where(here, UNKNOWN, self.how).astype(np.int8))


@lru_cache(maxsize=16)
def unknown(n: int) -> Column:
    """Nothing known in n rows; one for all who ask, so that nobody may write to it."""
    nothing, how = np.full(n, np.nan), np.zeros(n, np.int8)
    nothing.flags.writeable = how.flags.writeable = False
    return Column(nothing, nothing, how)


def exact(value, how=EVIDENCE) -> Column:
    """A column without uncertainty; NaN stays unknown."""
    value = np.array(value, float)
    known = ~np.isnan(value)
    return Column(value, np.where(known, 0.0, np.nan), np.where(known, how, 0).astype(np.int8))


@dataclass(frozen=True, slots=True)
class Frame:
    """Columns that share one axis; a code without a column is unknown everywhere."""

    size: int
    columns: Mapping[str, Column] = field(default_factory=dict)
    # By code, (size,) int: which photo scale a length was read from, −1 for none.
    scales: Mapping[str, np.ndarray] = field(default_factory=dict)

    def __getitem__(self, code: str) -> Column:
        return self.columns[code] if code in self.columns else unknown(self.size)

    def with_columns(self, new: Mapping[str, Column]) -> "Frame":
        return Frame(self.size, {**self.columns, **new}, self.scales)

    def take(self, rows, codes=None) -> "Frame":
        """The frame at some rows; of `codes` alone, where they are all that is wanted."""
        rows = np.asarray(rows)
        wanted = self.columns if codes is None else self.columns.keys() & set(codes)
        return Frame(len(rows), {code: self.columns[code].take(rows) for code in wanted},
                     {code: scale[rows] for code, scale in self.scales.items()})
