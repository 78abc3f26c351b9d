"""When the output gave way under load, what it held before, what was asked of it, and how sure.

An output that sags may hang on a thin cable. What the log does not tell apart is not held against
a unit.
"""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.accuracy import limit_of_error
from teardowns.logs.load_tests.before_loss import WITHIN, asked_for, held_before
from teardowns.logs.load_tests.doubt import Doubt, doubt_about
from teardowns.logs.load_tests.regulation import LoadTest, no_load_limit
from teardowns.logs.load_tests.steps import load_curve, theil_sen

# Our own choices, each on the side of the unit.
OFF_THE_LINE = 0.03             # of the nominal voltage, below the straight load line
LEAST_SHARE = 0.05              # of the time at that load or above: less is a drop-out
FEWEST = 3                      # low rows among WITHIN: fewer may be a wrong reading
NOISE = 4.0                     # standard deviations below the floor
TRIES = 40


@dataclass(frozen=True, slots=True)
class Loss:
    row: int                      # first row below the floor
    held: float                   # A that was held before
    held_rows: slice
    asked: float | None           # A that was asked for when it gave way; None: not shown
    asked_told: str
    spacing: float                # A from the load that was held to the one that was lost
    share: float                  # of the time under this load or a larger one, below the floor
    last: int                     # row after the last one under this load
    doubt: Doubt                  # whether it may be something else than the unit's doing


def low_rows(test: LoadTest, level: float, line: np.ndarray) -> np.ndarray:
    """(n,) bool: certainly below a voltage, for all that meter, noise and cable may do. [V]

    line : (n,) of `load_line`: where no cable is stated, a fall along it may be a cable's. [V]
    """
    most = float(test.current.max())
    margin = (limit_of_error(test.channels["output_voltage"], test.conditions, level)
              + NOISE * test.noise["voltage"] + 2 * most * test.cable[1])
    if test.conditions.cable is not None:
        return test.voltage < level - margin
    return test.voltage < np.fmin(level, line - OFF_THE_LINE * test.nominal) - margin


def load_line(test: LoadTest) -> np.ndarray:
    """(n,) The voltage at each row's current on the straight line through the load curve. [V]"""
    curve = load_curve(test)
    if curve is None or len(curve.current) < 3:
        return np.full(len(test.time), test.unloaded)
    slope, at_zero = theil_sen(curve.current, curve.voltage)
    return at_zero + slope * test.current


def find_loss(test: LoadTest, level: float, line: np.ndarray) -> Loss | None:
    """The first time that the output stayed or kept falling below a voltage under load. [V]"""
    low = low_rows(test, level, line) & _is_asked(test)
    count = np.concatenate([[0], np.cumsum(low)])
    starts = np.flatnonzero(low & ~np.concatenate([[False], low[:-1]]))
    ends = np.fmin(starts + WITHIN, len(low))
    starts = starts[count[ends] - count[starts] >= FEWEST]
    for row in starts[:TRIES]:
        found = _loss_at(test, low, int(row))
        if found is not None:
            return found
    return None


def _is_asked(test):
    """Rows at which something was asked of the output, after it was once in regulation."""
    begun = np.maximum.accumulate(test.in_regulation)
    loaded = np.maximum.accumulate(test.current > no_load_limit(
        test.current, test.step("output_current")))
    if test.asked is None:
        return begun & loaded
    return begun & (test.asked > no_load_limit(test.asked, test.step("set_current")))


def _loss_at(test, low, row):
    before = held_before(test, row)
    if before is None:
        return None
    asked, told, spacing = asked_for(test, low, row, before)
    least = 0.97 * (asked or before.held)
    same = np.zeros(len(low), bool)
    same[row:] = low[row:] | (test.current[row:] >= least)
    if test.asked is not None:
        same &= test.asked >= least
    share = float(test.weight[same & low].sum() / test.weight[same].sum())
    if share < LEAST_SHARE:
        return None
    last = int(np.flatnonzero(same)[-1]) + 1
    return Loss(row, before.held, before.rows, asked, told, spacing, share, last,
                doubt_about(test, low, row, last, before))
