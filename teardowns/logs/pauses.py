"""Where a log was not taken: times between two rows that are far longer than usual."""
from __future__ import annotations

import numpy as np

# Common practice, no source: a logger that writes on change keeps its line, a stopped one
# breaks it.
OF_MEDIAN = 5.0
OF_LONG = 3.0            # of the step that nine in ten do not exceed
LOOKED_AT = 1024         # steps that tell what is usual
STRIP = 1 << 20          # rows held in memory at once


def longest_usual_step(time: np.ndarray) -> float:
    """The time between two rows above which nothing was recorded between them [s].

    time : (n,) ascending [s]; inf where three rows or fewer tell nothing.
    """
    if len(time) < 4:
        return np.inf
    rows = np.unique(np.linspace(0, len(time) - 2, LOOKED_AT).astype(int))
    steps = time[rows + 1] - time[rows]
    return float(max(OF_MEDIAN * np.median(steps), OF_LONG * np.quantile(steps, 0.9)))


def pauses(time: np.ndarray, rows: slice, most: int) -> np.ndarray:
    """(m,) rows, among those of the slice, after which the log paused; the longest, in order."""
    usual = longest_usual_step(time)
    if not np.isfinite(usual) or rows.stop - rows.start < 2:
        return np.empty(0, int)
    found = np.concatenate([
        first + np.flatnonzero(np.diff(time[first:min(first + STRIP, rows.stop - 1) + 1]) > usual)
        for first in range(rows.start, rows.stop - 1, STRIP)])
    if len(found) > most:
        lengths = time[found + 1] - time[found]
        found = np.sort(found[np.argsort(-lengths, kind="stable")[:most]])
    return found
