"""A table of a standard as data: its rows, where they stand, and how well they are known."""
from dataclasses import dataclass
from functools import cache

import numpy as np


@dataclass(frozen=True, slots=True)
class Table:
    """One table, as a rule reads it and the method page prints it.

    rows : one tuple a row, the first entry is what the row is looked up by
    """

    title: str
    heads: tuple[str, ...]      # one a column, with the unit
    rows: tuple[tuple, ...]
    source: str                 # standard, table and clause, and where it was read
    confidence: str             # "A", "B" or "C"

    def column(self, index: int) -> np.ndarray:
        return np.array([row[index] for row in self.rows], float)


@cache
def grid(table: Table) -> np.ndarray:
    """The numbers of a table whose columns are all numbers, (rows, columns)."""
    return np.array(table.rows, float)


def looked_up(table: Table, column, at) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """As `interpolated`, of another column for each entry: column : (m,) int"""
    numbers, at = grid(table), np.asarray(at, float)
    limits = numbers[:, 0]
    upper = np.clip(np.searchsorted(limits, at), 1, len(limits) - 1)
    x0, x1 = limits[upper - 1], limits[upper]
    y0, y1 = numbers[upper - 1, column], numbers[upper, column]
    between = y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    first, row = at <= limits[0], at == x1
    value = np.where(first, numbers[0, column], np.where(row, y1, between))
    known = at <= limits[-1]
    return np.where(known, value, np.nan), first | row, np.where(known, y1, np.nan)


def step_up(limits: np.ndarray, values: np.ndarray, at) -> np.ndarray:
    """(m,) the value of the first row whose limit is not below `at`; NaN above the last row."""
    at = np.asarray(at, float)
    place = np.minimum(np.searchsorted(limits, at), len(limits) - 1)
    return np.where(at <= limits[-1], values[place], np.nan)


def interpolated(limits: np.ndarray, values: np.ndarray,
                 at) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Linear between the rows, the first row below them, NaN above the last.

    Returns the value, whether it is a row as printed, and the value of the next row up.
    """
    at = np.asarray(at, float)
    upper = np.clip(np.searchsorted(limits, at), 1, len(limits) - 1)
    x0, x1, y0, y1 = limits[upper - 1], limits[upper], values[upper - 1], values[upper]
    between = y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    first, row = at <= limits[0], at == x1
    value = np.where(first, values[0], np.where(row, y1, between))
    known = at <= limits[-1]
    return np.where(known, value, np.nan), first | row, np.where(known, y1, np.nan)


def rounded_up(value, step: float) -> np.ndarray:
    """To the next multiple of a step; what lies a billionth of a step above one is that one."""
    return np.round(np.ceil(np.asarray(value, float) / step - 1e-9) * step, 4)
