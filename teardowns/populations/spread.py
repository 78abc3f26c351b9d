"""How a quantity is spread over units: its quantiles, and how many units lie in each bin."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

LEAST_QUARTILES = 8      # units below which quarters of them say nothing; our own choice
LEAST_TAILS = 40         # the same for the twentieths at both ends; our own choice
BINS_A_DECADE = 20       # each bin is 12 % wide


@dataclass(frozen=True, slots=True)
class Spread:
    """NaN where there are too few units to speak of it; all in the quantity's unit."""

    n: int
    twentieth: float          # one unit in twenty lies below
    quarter: float
    median: float
    three_quarters: float
    nineteen: float           # one unit in twenty lies above


def spread(values: np.ndarray) -> Spread:
    r"""The quantiles of the values that are known.

    .. math:: Q(p) = x_{(j)} + (h - j)(x_{(j+1)} - x_{(j)}), \quad h = (n - 1)p + 1,
              \quad j = \lfloor h \rfloor

    Parameters
    ----------
    values : (n,) float
        Of single units; NaN where unknown, left out. [any]

    Returns
    -------
    Spread
        NaN where there are too few. [as the values]

    Errors
    ------
    Formula: exact for the units at hand; says nothing of units that nobody opened.

    References
    ----------
    .. [1] R. J. Hyndman, Y. Fan, Sample quantiles in statistical packages, The American
       Statistician 50 (1996) 361, definition 7 (from memory).
    """
    known = values[np.isfinite(values)]
    n = len(known)
    if n == 0:
        return Spread(0, *[np.nan] * 5)
    at = np.quantile(known, [0.05, 0.25, 0.5, 0.75, 0.95]).tolist()
    if n < LEAST_TAILS:
        at[0] = at[4] = np.nan
    if n < LEAST_QUARTILES:
        at[1] = at[2] = at[3] = np.nan
    return Spread(n, *at)


def bins(values: np.ndarray, low: float, high: float, number: int) -> np.ndarray:
    """(n,) int, the bin of each value on a logarithmic scale from low to high; −1 where it is
    unknown. What lies beyond an end, zero too, falls into the last bin there."""
    known = np.isfinite(values)
    inside = np.clip(np.where(known, values, low), low, high)
    share = np.log(inside / low) / np.log(high / low)
    return np.where(known, np.minimum((share * number).astype(int), number - 1), -1)


def number_of_bins(low: float, high: float) -> int:
    return max(1, round(BINS_A_DECADE * float(np.log10(high / low))))
