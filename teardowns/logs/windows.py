"""A part of a log with few enough points to draw, and yet every peak in it."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.pauses import STRIP, pauses

FEWEST = 4               # buckets: below that the ends leave no room for a peak
PAUSE_SHARE = 5          # at most one pause for so many buckets is drawn


@dataclass(frozen=True, slots=True)
class Window:
    time: np.ndarray          # (k,) ascending [s]
    values: np.ndarray        # (k,) NaN = a gap: the line breaks here


@dataclass(frozen=True, slots=True)
class Windows:
    time: np.ndarray                      # (k,) ascending [s]
    columns: tuple[np.ndarray, ...]       # (k,) each
    whole: bool                           # no sample of the rows was left out
    marks: np.ndarray                     # (m,) points that are no samples: a pause of the log


def window(time: np.ndarray, values: np.ndarray, start: float, end: float, buckets: int) -> Window:
    """Lowest and highest sample of each bucket, in the order in which they occur.

    time : (n,) ascending [s]; values : (n,) NaN = blank. Both may be memory-mapped.
    The first and the last sample of [start, end] are kept, and both sides of a pause in the log,
    between which stands a NaN that is no sample. At most 2·buckets points; where the span
    has no more samples than that, all of them.
    """
    rows = rows_between(time, start, end)
    breaks = pauses(time, rows, buckets // PAUSE_SHARE)
    picked = picked_rows(values, rows, buckets, breaks)
    after, at = _breaks_in(time, picked, breaks)
    return Window(np.insert(time[picked], after, at), np.insert(values[picked], after, np.nan))


def windows(time: np.ndarray, columns: tuple[np.ndarray, ...], rows: slice,
            buckets: int) -> Windows:
    """Several columns at common times, with what each of them alone would have kept.

    At most 2·buckets·columns points.
    """
    breaks = pauses(time, rows, buckets // PAUSE_SHARE)
    picked = np.unique(np.concatenate(
        [picked_rows(values, rows, buckets, breaks) for values in columns]))
    after, at = _breaks_in(time, picked, breaks)
    return Windows(np.insert(time[picked], after, at),
                   tuple(np.insert(values[picked], after, np.nan) for values in columns),
                   len(picked) == rows.stop - rows.start, after + np.arange(len(after)))


def rows_between(time: np.ndarray, start: float, end: float) -> slice:
    """The rows whose time lies in [start, end]."""
    return slice(int(np.searchsorted(time, start, "left")),
                 int(np.searchsorted(time, end, "right")))


def with_neighbours(rows: slice, length: int) -> slice:
    """One row more at either end, so that a line runs on to the edge of a chart."""
    return slice(max(rows.start - 1, 0), min(rows.stop + 1, length))


def picked_rows(values: np.ndarray, rows: slice, buckets: int, breaks: np.ndarray) -> np.ndarray:
    """(k,) rows, ascending, that show what all rows of the slice show.

    breaks : (m,) rows after which the log paused, m ≤ buckets / PAUSE_SHARE; together with a
    mark for each of them the rows are at most 2·buckets.
    """
    if buckets < FEWEST:
        raise ValueError(f"A window needs at least {FEWEST} buckets.")
    if rows.stop - rows.start + len(breaks) <= 2 * buckets:
        return np.arange(rows.start, rows.stop)
    inner = _extremes(values, rows.start, rows.stop, 2 * buckets - 2 - 3 * len(breaks))
    ends = [rows.start, rows.stop - 1]
    return np.unique(np.concatenate([ends, breaks, breaks + 1, inner]))


def _extremes(values, first, last, room):
    """Rows of the lowest and the highest value of each bucket, and of its first gap."""
    rows = _of_buckets(values, first, last, max(room // 2, 1))
    if np.isnan(values[rows]).any():           # a gap takes a third point of its bucket
        rows = _of_buckets(values, first, last, max(room // 3, 1))
    return rows


def _of_buckets(values, first, last, buckets):
    size = -(-(last - first) // buckets)       # rounded up
    strip = size * max(STRIP // size, 1)
    found = []
    for start in range(first, last, strip):
        stop = min(start + strip, last)
        whole = start + (stop - start) // size * size
        found.append(_of_blocks(values[start:whole].reshape(-1, size), start))
        if whole < stop:
            found.append(_of_blocks(values[whole:stop].reshape(1, -1), whole))
    return np.concatenate(found)


def _of_blocks(blocks, first):
    """blocks : (b, size) → rows; the first row of the first block is `first`."""
    starts = first + np.arange(len(blocks)) * blocks.shape[1]
    lowest = blocks.argmin(1)                  # the first NaN of a block, if it has one
    torn = np.isnan(blocks[np.arange(len(blocks)), lowest])
    highest = blocks.argmax(1)
    gaps = (starts + lowest)[torn]
    if torn.any():
        lowest[torn] = np.where(np.isnan(blocks[torn]), np.inf, blocks[torn]).argmin(1)
        highest[torn] = np.where(np.isnan(blocks[torn]), -np.inf, blocks[torn]).argmax(1)
    return np.concatenate([starts + lowest, starts + highest, gaps])


def _breaks_in(time, picked, breaks):
    """Where among the picked rows a pause stands, and the middle of its time."""
    places = np.searchsorted(picked, breaks, "right")
    shown = (places > 0) & (places < len(picked))
    shown[shown] &= ((picked[places[shown] - 1] == breaks[shown])
                     & (picked[places[shown]] == breaks[shown] + 1))
    at = (time[breaks[shown]] + time[breaks[shown] + 1]) / 2
    return places[shown], at
