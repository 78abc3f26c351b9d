"""What an output held before it gave way, and what was then asked of it."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.load_tests.regulation import LoadTest
from teardowns.logs.load_tests.steps import finest_change

WITHIN = 20                     # rows about a loss that are looked at
DUE = 0.15                      # of a step's length: so punctual are steps; our own choice


@dataclass(frozen=True, slots=True)
class Before:
    held: float                   # A
    rows: slice                   # in which it was held
    jump: int | None = None       # row at which the load was raised to what was lost
    dwell: float = 0.0            # s that a load was held before the next, 0: a ramp
    sizes: tuple[float, ...] = ()       # A, by how much the last loads differed
    is_due: bool = False          # the load was held just as long as those before it
    off_beat: float = np.inf      # s between the loss and the rise of the load, done or due


def held_before(test: LoadTest, row: int) -> Before | None:
    """What was held before the loss; None = the output was never in regulation."""
    good = np.flatnonzero(test.in_regulation[:row])
    if not len(good):
        return None
    load = test.load[:row + 1]
    rises = np.flatnonzero(np.diff(load) > finest_change(test)) + 1
    if _is_ramp(test, good, rises, row):
        rows = slice(max(int(good[-1]) - 2, 0), int(good[-1]) + 1)
        return Before(float(np.median(test.current[rows])), rows, row)
    starts = _merged(rises)
    if not len(starts):
        return _of_step(test, 0, row)
    lasted = np.diff(test.time[[0, *starts[-4:]]])[-3:]
    dwell, sizes = float(lasted.min()), _sizes(test, starts)
    jump, previous = int(starts[-1]), int(starts[-2]) if len(starts) > 1 else 0
    since = float(test.time[row] - test.time[jump])
    is_due = test.asked is None and len(lasted) > 1 and abs(since - dwell) <= max(
        DUE * dwell, 3 * float(np.median(test.weight)))
    if not is_due and (since <= 0.5 * dwell or row - jump <= 3):
        return _of_step(test, previous, jump, jump=jump, dwell=dwell, sizes=sizes, off_beat=since)
    return _of_step(test, jump, row, dwell=dwell, sizes=sizes, is_due=is_due,
                    off_beat=abs(since - dwell) if is_due else np.inf)


def _is_ramp(test, good, rises, row):
    """Whether each row asked for a little more, in steps that are seen or drown in noise."""
    recent = np.count_nonzero(rises > row - 2 * WITHIN)
    if recent:
        return recent > 0.4 * min(2 * WITHIN, row)
    last = test.load[good[-3 * WITHIN:]]
    if len(last) < 3 * WITHIN:
        return False
    first, second = np.diff([np.median(part) for part in np.split(last, 3)])
    least = max(2 * test.noise["current"] / np.sqrt(WITHIN), 1e-4 * float(last[-1]))
    return first > least and second > least and 0.4 < first / second < 2.5


def _merged(rises):
    """Rises in neighbouring rows are one, that a slow meter shows in several."""
    if not len(rises):
        return rises
    return rises[np.concatenate([[True], np.diff(rises) > 2])]


def _of_step(test, first, last, **known):
    """The second half of a step, when its meters have settled."""
    rows = slice((first + last) // 2, last)
    values = test.current[rows][test.in_regulation[rows]]
    if not len(values):
        return None
    if len(values) > 10 and (abs(np.median(values[-5:]) - np.median(values[:5]))
                             > finest_change(test)):
        rows, values = slice(max(last - 3, first), last), values[-3:]      # it crept upwards
    return Before(float(np.median(values)), rows, **known)


def _sizes(test, starts):
    """(≤ 3,) how far the last steps rose [A], each between the middles of its steps."""
    edges = starts[-5:]
    middles = [float(np.median(test.current[(a + b) // 2:b]))
               for a, b in zip(edges[:-1], edges[1:], strict=True)]
    return tuple(float(size) for size in np.diff(middles))


def asked_for(test: LoadTest, low: np.ndarray, row: int,
              before: Before) -> tuple[float | None, str, float]:
    """(A or None, how it is known, A between held and lost)"""
    held, jump, sizes = before.held, before.jump, before.sizes
    if test.asked is not None:
        asked = float(test.asked[row])
        return asked, f"The load was set to {asked:.3f} A.", max(asked - held, 0.0)
    near = slice(row, min(row + WITHIN, len(low)))
    drawn = float(np.quantile(test.current[near][low[near]], 0.9))
    if jump is not None and row > jump:
        drawn = max(drawn, float(np.median(test.current[jump:row])))
    finest = finest_change(test)
    if drawn > held + finest:
        return drawn, f"The load still drew {drawn:.3f} A.", max(drawn - held, finest)
    is_same = not before.is_due and jump is None and abs(drawn - held) <= finest
    if not sizes or is_same:                 # nothing was changed, or by little from row to row
        return held, f"The load had been drawing {held:.3f} A.", finest
    if (before.is_due or jump is not None) and len(sizes) >= 2 and min(sizes) > finest / 2 and (
            np.ptp(sizes) <= max(0.25 * np.mean(sizes), 2 * finest)):
        size = float(np.mean(sizes))
        told = (f"The setting of the load was not logged; it had risen by {size:.3f} A a step and "
                f"was due to rise, to {held + size:.3f} A.")
        return held + size, told, max(size, finest)
    return None, "", 0.0
