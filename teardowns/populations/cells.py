"""Cells of a plane that hold so many units, where single points would lie on top of each other."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .spread import bins

STEPS = 5                # tints of ink that are told apart


@dataclass(frozen=True, slots=True)
class Cells:
    """Cells that hold a unit, and what each tint stands for.

    column, row, step : (m,) int, the tint counts from 0, the lightest
    least : (k,) int, the smallest count of each tint that occurs
    most : (k,) int, the largest
    """

    columns: int
    rows: int
    column: np.ndarray
    row: np.ndarray
    step: np.ndarray
    least: tuple[int, ...]
    most: tuple[int, ...]


def cells(x: np.ndarray, y: np.ndarray, across: tuple[float, float], up: tuple[float, float],
          columns: int, rows: int) -> Cells:
    """How many units lie in each cell of two logarithmic scales.

    x, y : (n,) float, of the same units; pairs with an unknown are left out
    across, up : ends of the scales, in the units of x and y
    """
    at_x, at_y = bins(x, *across, columns), bins(y, *up, rows)
    known = (at_x >= 0) & (at_y >= 0)
    counts = np.bincount(at_y[known] * columns + at_x[known], minlength=columns * rows)
    taken = np.flatnonzero(counts)
    held = counts[taken]
    tint = _tints(held)
    ends = [(int(held[tint == step].min()), int(held[tint == step].max()))
            for step in range(tint.max(initial=-1) + 1)]
    return Cells(columns, rows, taken % columns, taken // columns, tint,
                 tuple(low for low, _ in ends), tuple(high for _, high in ends))


def _tints(counts: np.ndarray) -> np.ndarray:
    """(m,) int, equal steps in ln of the count; steps that no cell falls into are closed up."""
    if not len(counts):
        return counts.astype(int)
    over = np.log(counts / counts.min())
    share = over / max(float(over.max()), 1e-9)
    found = np.minimum((share * STEPS).astype(int), STEPS - 1)
    return np.unique(found, return_inverse=True)[1]
