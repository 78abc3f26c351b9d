"""The largest power held in regulation at one load for a time: ten minutes, or ten seconds."""
from __future__ import annotations

import numpy as np

from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.load_tests.numbers import (
    extracted,
    mean_over,
    power_budget,
    power_working,
    unread,
)
from teardowns.logs.load_tests.regulation import RESET, LoadTest
from teardowns.logs.load_tests.steps import SAME_LOAD, changes

SUSTAINED_TIME, PEAK_TIME = 600.0, 10.0      # s
LEAST_SHARE = 0.99              # of the time of a window, in regulation
SMOOTHED = 0.05                 # of a window's rows: noise is averaged out before loads are told
DIGITS = 2.0                    # of the ammeter: so many are no change of load


def read_sustained(test: LoadTest, seconds: float = SUSTAINED_TIME,
                   code: str = "sustained_power") -> Extracted | Unread:
    """The window with the largest mean power, or why there is none."""
    rows = best_window(test, seconds)
    if rows is None:
        return unread(code, _why(test, seconds), test)
    power = mean_over(test.power[rows], test.weight[rows])
    share = mean_over(test.in_regulation[rows].astype(float), test.weight[rows])
    return extracted(code, power, power_budget(test, rows), rows, test, (
        test.nominal_told,
        f"In regulation: at least {test.floor:.3f} V. The window of {seconds:g} s with the largest "
        f"mean power in which that held for at least 99 % of the time (here {100 * share:.1f} %), "
        "without reset, gap or change of load.",
        *power_working(test, rows, power)), seconds)


def read_peak(test: LoadTest) -> Extracted | Unread:
    return read_sustained(test, PEAK_TIME, "peak_power")


def _why(test, seconds):
    if not test.in_regulation.any():
        return (f"The voltage is nowhere at or above {test.floor:.3f} V, the least that counts as "
                f"regulation of {test.nominal:g} V: correct the stated voltage if it is another.")
    held = next((part for part in seconds / 2.0 ** np.arange(1, 8) if best_window(test, part)),
                0.0)
    longest = f"for {held:g} s but not for {2 * held:g} s" if held else "for any length of time"
    return (f"No load was held in regulation for {seconds:g} s without a gap (one was held "
            f"{longest}): hold one load for {seconds:g} s or longer.")


def best_window(test: LoadTest, seconds: float) -> slice | None:
    """The consecutive rows that last `seconds`, pass every condition and give the most."""
    first, last = windows_of(test, seconds)
    if not len(first):
        return None
    energy = np.concatenate([[0.0], np.cumsum(test.power * test.weight)])
    time = np.concatenate([[0.0], np.cumsum(test.weight)])
    mean = (energy[last] - energy[first]) / (time[last] - time[first])
    loaded = test.current[first] > 0
    if not loaded.any():
        return None
    best = int(np.argmax(np.where(loaded, mean, -np.inf)))
    return slice(int(first[best]), int(last[best]))


def windows_of(test: LoadTest, seconds: float) -> tuple[np.ndarray, np.ndarray]:
    """(first, last) of all windows that pass; `last` is the row after the window."""
    time = np.concatenate([[0.0], np.cumsum(test.weight)])
    last = np.searchsorted(time, time[:-1] + seconds * (1 - 1e-9), "left")
    first = np.flatnonzero(last <= len(test.time))
    last = last[first]
    good = _passes(test, first, last, time)
    first, last = first[good], last[good]
    steady = _is_one_load(test, first, last)
    return first[steady], last[steady]


def _passes(test, first, last, time):
    """No gap nor change of load inside, no reset, 99 % of the time in regulation, under load."""
    held = np.concatenate([[0.0], np.cumsum(test.weight * test.in_regulation)])
    resets = _counted(test.voltage < RESET * test.nominal)
    breaks = _counted(test.is_break | changes(test))
    free = _counted(test.has_no_load)
    share = (held[last] - held[first]) / (time[last] - time[first])
    return ((share >= LEAST_SHARE - 1e-9) & (resets[last] == resets[first])
            & (breaks[last] == breaks[first + 1]) & (free[last] == free[first]))


def _counted(rows):
    return np.concatenate([[0], np.cumsum(rows)])


def _is_one_load(test, first, last):
    """Whether the load moved by no more than 3 % between its lowest and highest, smoothed."""
    if not len(first):
        return np.zeros(0, bool)
    size = max(int(SMOOTHED * np.median(last - first)), 1)
    stride = max(size // 4, 1)                             # smoothed values change no faster
    sums = np.concatenate([[0.0], np.cumsum(test.load)])
    at = np.arange(0, len(sums) - size, stride)
    means = (sums[at + size] - sums[at]) / size            # of rows i … i+size−1
    inner = -(-first // stride)                            # the first that lies all inside
    outer = np.fmin(np.fmax((last - size) // stride + 1, inner + 1), len(means))
    low, high = ranges(means, np.fmin(inner, outer - 1), outer)
    digit = test.step("output_current" if test.asked is None else "set_current")
    return high - low <= SAME_LOAD * high + DIGITS * digit


def ranges(values: np.ndarray, first: np.ndarray, last: np.ndarray) -> tuple[np.ndarray, ...]:
    """(lowest, highest) of values[first:last] of every window, by doubling in n·log n.

    first, last : (m,) int, first < last
    """
    low, high = values, values
    found_low, found_high = np.empty(len(first)), np.empty(len(first))
    level = np.log2(last - first).astype(int)
    for power in range(int(level.max()) + 1):
        mine = np.flatnonzero(level == power)
        a, b = first[mine], last[mine] - (1 << power)
        found_low[mine] = np.fmin(low[a], low[b])
        found_high[mine] = np.fmax(high[a], high[b])
        step = 1 << power
        low, high = np.fmin(low[:-step], low[step:]), np.fmax(high[:-step], high[step:])
    return found_low, found_high
