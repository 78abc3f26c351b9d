"""Where a test changed its load, and the load curve as a few settled points."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.load_tests.regulation import LoadTest

SAME_LOAD = 0.03                # peak to peak of one load; basis of the sustained window
POINTS = 48                     # of a load curve: enough for a slope, few enough for all pairs
AROUND = 3                      # rows that tell a step from noise
NOISE = 6.0                     # standard deviations


@dataclass(frozen=True, slots=True)
class LoadCurve:
    current: np.ndarray           # (k,) ascending, medians [A]
    voltage: np.ndarray           # (k,) medians of the same rows [V]


def finest_change(test: LoadTest) -> float:
    """A change of load above this is no noise. [A]"""
    if test.asked is not None:
        return 1e-4 * max(float(test.asked.max()), 1e-6)
    return max(NOISE * test.noise["current"], 1.6 * test.step("output_current"),
               0.004 * float(test.current.max()))


def is_changing(test: LoadTest) -> np.ndarray:
    """(n,) bool: rows around which the load goes from one value to another."""
    return _is_large(test, _jumps(test))


def _is_large(test, jump):
    """Beyond noise, as it is met between these very means, and beyond half of one load."""
    usual = float(np.median(jump)) if len(jump) else 0.0
    least = max(finest_change(test), NOISE * usual / 0.6745)
    return jump > np.fmax(least, SAME_LOAD / 2 * np.abs(test.load))


def changes(test: LoadTest) -> np.ndarray:
    """(n,) bool: the first row of each new load."""
    jump = _jumps(test)
    highest = jump.copy()
    for shift in range(1, AROUND):
        highest[shift:] = np.fmax(highest[shift:], jump[:-shift])
        highest[:-shift] = np.fmax(highest[:-shift], jump[shift:])
    return (jump == highest) & _is_large(test, jump)


def _jumps(test):
    """(n,) by how much the mean of the next rows differs from that of the last. [A]"""
    load, n = test.load, len(test.time)
    if n < 2 * AROUND:
        return np.zeros(n)
    sums = np.concatenate([[0.0], np.cumsum(load)])
    means = (sums[AROUND:] - sums[:-AROUND]) / AROUND        # of the rows i … i+AROUND−1
    jump = np.zeros(n)
    jump[AROUND:n - AROUND + 1] = np.abs(means[AROUND:] - means[:-AROUND])
    return jump


def rows_after_changes(test: LoadTest, rows: int = AROUND) -> np.ndarray:
    """(n,) bool: rows at a change of load or so few after it that meters may still lag."""
    changing = is_changing(test).astype(np.int64)
    seen = np.concatenate([[0], np.cumsum(changing)])
    first = np.fmax(np.arange(len(changing)) - rows, 0)
    return seen[1:] - seen[first] > 0


def load_curve(test: LoadTest, most: float = np.inf) -> LoadCurve | None:
    """Medians of voltage at up to 48 currents, settled and in regulation; None: fewer than two.

    most : the largest current to look at [A]
    """
    used = test.in_regulation & (test.current <= most)
    settled = used & ~rows_after_changes(test)
    if np.count_nonzero(settled) >= max(8, 0.2 * np.count_nonzero(used)):
        used = settled                                     # a ramp never settles
    current, voltage = test.current[used], test.voltage[used]
    if len(current) < 2 or not current.max() > current.min():
        return None
    order = np.argsort(current, kind="stable")
    current, voltage = current[order], voltage[order]
    edges = np.linspace(current[0], current[-1], POINTS + 1)[1:-1]
    groups = zip(np.split(current, np.searchsorted(current, edges)),
                 np.split(voltage, np.searchsorted(current, edges)), strict=True)
    points = np.array([(np.median(i), np.median(v)) for i, v in groups if len(i)])
    return LoadCurve(points[:, 0], points[:, 1]) if len(points) > 1 else None


def theil_sen(x: np.ndarray, y: np.ndarray) -> tuple[float, float]:
    """(slope, intercept) through the medians of all pairs; deaf to 29 % of wild points.

    x, y : (k,) few points, for all pairs are formed. P. K. Sen, J. Am. Stat. Assoc. 63 (1968)
    1379 (from memory). Pairs of equal x are left out; NaN where none is left.
    """
    first, second = np.triu_indices(len(x), 1)
    run = x[second] - x[first]
    apart = run != 0
    if not apart.any():
        return np.nan, np.nan
    slope = float(np.median((y[second] - y[first])[apart] / run[apart]))
    return slope, float(np.median(y - slope * x))
