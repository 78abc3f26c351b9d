"""One quantity of many units: in which bin each lies, and who stands at the ends."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .relation import MOST_POINTS
from .spread import Spread, bins, number_of_bins, spread

MOST_AT_ENDS = 15        # units at either end that are drawn as points beside bars


@dataclass(frozen=True, slots=True)
class Stacks:
    """rows : (m,) int, chosen units whose value is known, the smallest first; values : of each row
    bin : (m,) int, of each row; counts : (k,) int, rows in each bin
    points : rows that are drawn as points, of many those at both ends; is_dense : whether the
    others are bars
    """

    rows: np.ndarray
    values: np.ndarray
    bin: np.ndarray
    counts: np.ndarray
    points: np.ndarray
    is_dense: bool
    spread: Spread

    def below(self, value: float) -> int:
        """How many units have less."""
        return int(np.searchsorted(self.values, value))


def stacks(values: np.ndarray, chosen: np.ndarray, low: float, high: float) -> Stacks:
    """values : (n,) of all listed units, NaN where unknown; chosen : (n,) bool; low, high : of the
    logarithmic scale, in the values' unit"""
    rows = np.flatnonzero(chosen & np.isfinite(values))
    rows = rows[np.argsort(values[rows], kind="stable")]
    number = number_of_bins(low, high)
    known = values[rows]
    held = bins(known, low, high, number)
    is_dense = len(rows) > MOST_POINTS
    points = np.concatenate([rows[:MOST_AT_ENDS], rows[-MOST_AT_ENDS:]]) if is_dense else rows
    return Stacks(rows, known, held, np.bincount(held, minlength=number), points, is_dense,
                  spread(known))
