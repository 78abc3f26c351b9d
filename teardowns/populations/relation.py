"""Two quantities of many units: who is drawn, who stands out, and in which order they are told."""
from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from .band import Band
from .kept_bands import kept_band

MOST_POINTS = 200        # units above which cells are drawn, and points for those that stand out
MOST_APART = 40          # units that stand out, at either side


@dataclass(frozen=True, slots=True)
class Relation:
    """x, y : (n,) of all listed units, NaN where unknown

    rows : (m,) int, chosen units of which both are known, farthest from the middle first
    off : (n,) how far above the middle, in ln; in half-widths of the band where there is one
    points : rows that are drawn as points; is_dense : whether the others are cells
    band : or why there is none; "" where none was asked for
    known : what was worked out of all units already, see `once`
    """

    x: np.ndarray
    y: np.ndarray
    rows: np.ndarray
    off: np.ndarray
    points: np.ndarray
    is_dense: bool
    band: Band | str
    known: dict[Hashable, Any] = field(default_factory=dict, compare=False, repr=False)

    def once(self, name: Hashable, work: Callable[[], Any]) -> Any:
        """What `work` finds, which goes through all units the first time only."""
        if name not in self.known:
            self.known[name] = work()
        return self.known[name]


def against_band(x: np.ndarray, y: np.ndarray, chosen: np.ndarray) -> Relation:
    """Units against the band of their own population; those farthest from its line first.

    chosen : (n,) bool
    """
    x, y = _positive(x), _positive(y)
    known = chosen & np.isfinite(x) & np.isfinite(y)
    band = kept_band(x[known], y[known])
    if isinstance(band, Band):
        with np.errstate(divide="ignore", invalid="ignore"):     # a band of no width
            off = np.log(y / band.line(x)) / np.log(band.factor(x))
        order = -np.abs(off)
    else:
        off = np.full(len(x), np.nan)
        order = -x                               # the heaviest first
    return _relation(x, y, known, off, order, band)


def against_equal(x: np.ndarray, y: np.ndarray, chosen: np.ndarray) -> Relation:
    """Units against the line y = x; those farthest below it first."""
    x, y = _positive(x), _positive(y)
    known = chosen & np.isfinite(x) & np.isfinite(y)
    off = np.log(y / x)
    return _relation(x, y, known, off, off, "")


def _positive(values):
    """Nothing weighs or delivers nothing: what is not positive is not known."""
    return np.where(values > 0, values, np.nan)


def _relation(x, y, known, off, order, band):
    rows = np.flatnonzero(known)
    rows = rows[np.argsort(order[rows], kind="stable")]
    is_dense = len(rows) > MOST_POINTS
    return Relation(x, y, rows, off, _apart(rows, off) if is_dense else rows, is_dense, band)


def _apart(rows, off):
    """Of either side those farthest off. `off` of rows is NaN where there is no middle."""
    known = rows[np.isfinite(off[rows])]
    rising = known[np.argsort(off[known], kind="stable")]
    return np.unique(np.concatenate([rising[:MOST_APART], rising[-MOST_APART:]]))
