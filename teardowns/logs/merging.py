"""Two logs of one test side by side: what the mains side drew beside what the output gave."""
from __future__ import annotations

from dataclasses import replace

import numpy as np

from teardowns.logs.channels import Channels
from teardowns.logs.extracted import Unread

INPUT_ROLES = ("input_voltage", "input_current", "input_power")
LONGEST_GAP = 3.0          # usual steps of the other log over which a straight line is believed
GRID = 4096                # points on which two logs are laid over each other
LEAST_LIKENESS = 0.8       # correlation below which two logs are not said to belong together


def beside(log: Channels, other: Channels, offset: float) -> Channels:
    """The log with the mains-side columns of another one, at its own times.

    offset : seconds into this log at which the other begins. Where the other has a hole, or has
    not begun, the cells are blank.
    """
    at = log.time - offset
    added = tuple(replace(channel, values=_at(other.time, channel.values, at))
                  for role in INPUT_ROLES if log.of(role) is None
                  for channel in other.all_of(role)[:1])
    return Channels(log.time, (*log.channels, *added))


def _at(time, values, wanted):
    known = np.isfinite(values)
    time, values = time[known], values[known]
    if len(time) < 2:
        return np.full(len(wanted), np.nan)
    found = np.interp(wanted, time, values, left=np.nan, right=np.nan)
    after = np.clip(np.searchsorted(time, wanted, "left"), 1, len(time) - 1)
    steps = np.diff(time)
    is_hole = steps[after - 1] > LONGEST_GAP * np.median(steps)
    is_read = (wanted == time[after]) | (wanted == time[after - 1])
    return np.where(is_hole & ~is_read, np.nan, found)


def best_offset(log: Channels, other: Channels) -> float | Unread:
    """Seconds into the log at which the other begins, found by their steps of power.

    The largest correlation of both over every shift with at least half of the shorter in common
    (cross-correlation by FFT, as in any text on signals).
    """
    mine, theirs = _power(log, "output"), _power(other, "input")
    if mine is None or theirs is None:
        return _unlike("One of the two has no power, nor a voltage and a current")
    step = max(log.time[-1], other.time[-1]) / GRID
    if not step > 0:
        return _unlike("One of the two has no length")
    left = np.interp(np.arange(0, log.time[-1], step), log.time, mine)
    right = np.interp(np.arange(0, other.time[-1], step), other.time, theirs)
    shifts, likeness = _correlations(left, right)
    best = int(np.argmax(likeness))
    if not likeness[best] >= LEAST_LIKENESS:
        return _unlike("Their steps do not match")
    return float(shifts[best] * step)


def _unlike(why):
    return Unread("input_offset", "Offset of the mains-side log",
                  f"{why}: write the offset by hand, or check that both are of one test.")


def _power(log, side):
    power, volts, amperes = (log.of(f"{side}_{what}") for what in ("power", "voltage", "current"))
    if power is not None:
        return np.nan_to_num(power.values)
    if side == "output" and volts is not None and amperes is not None:
        return np.nan_to_num(volts.values * amperes.values)
    return np.nan_to_num(amperes.values) if amperes is not None else None


def _correlations(left, right):
    """(shifts in steps, correlation of the overlap at each), overlaps of half the shorter on."""
    size = len(left) + len(right) - 1
    spectrum = [np.fft.rfft(part, size) for part in (
        left, left ** 2, np.ones_like(left))]
    mirrored = [np.fft.rfft(part[::-1], size) for part in (
        right, right ** 2, np.ones_like(right))]

    def crossed(one, two):
        return np.fft.irfft(spectrum[one] * mirrored[two], size)

    count = np.fmax(np.rint(crossed(2, 2)), 1)
    left_mean, right_mean = crossed(0, 2) / count, crossed(2, 0) / count
    covariance = crossed(0, 0) / count - left_mean * right_mean
    left_var = crossed(1, 2) / count - left_mean ** 2
    right_var = crossed(2, 1) / count - right_mean ** 2
    floor = 1e-9 * (left.var() + 1e-30), 1e-9 * (right.var() + 1e-30)
    spread = np.sqrt(np.fmax(left_var, floor[0]) * np.fmax(right_var, floor[1]))
    likeness = np.where(count >= min(len(left), len(right)) / 2, covariance / spread, -1.0)
    return np.arange(size) - (len(right) - 1), likeness
