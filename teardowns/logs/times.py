"""When each row was taken: written times → seconds from the first row on, never backwards."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from teardowns.logs.refusals import RefusedLog

DAY = 86400.0
FAR = 1e6                    # s
# Common practice, no source: a clock that falls by nearly a day has passed midnight. A longer
# pause is not taken for granted, for a second log of another day looks the same.
LONGEST_MIDNIGHT_PAUSE = 3600.0


@dataclass(frozen=True, slots=True)
class Refused:
    row: int
    why: RefusedLog


def over_midnight(clock: np.ndarray, last: float | None) -> np.ndarray:
    """A clock of day that goes on counting after midnight.

    clock : (n,) seconds of day; last : of the row before, days counted, None = there is none.
    """
    previous = np.concatenate([[clock[0] if last is None else last % DAY], clock[:-1]])
    fell = (clock < previous) & (clock + DAY - previous <= LONGEST_MIDNIGHT_PAUSE)
    days = (0.0 if last is None else last // DAY) + np.cumsum(fell)
    return clock + DAY * days


def since_first(clock: np.ndarray, first: float) -> np.ndarray:
    """Seconds from the first row on, without the dust of counting from a far day.

    A float keeps a clock of today to 1e-7 s, and a clock of day to 1e-11 s.
    """
    return np.round(clock - first, 6 if clock[-1] >= FAR else 9)


def step_back(times: np.ndarray, first: float, last: float | None) -> Refused | None:
    """The first row whose time lies before that of the row above it.

    Equal times stay as they are: a clock that is coarser than the log tells no more.
    """
    previous = np.concatenate([[times[0] if last is None else last], times[:-1]])
    back = times < previous
    if not back.any():
        return None
    row = int(back.argmax())
    if times[row] <= first:
        return Refused(row, RefusedLog(
            "second_log", "The time begins anew: a second log was pasted below the first. Save "
            "each of them as a file of its own, or delete what stands from here on."))
    return Refused(row, RefusedLog(
        "time_runs_back", "The time lies before that of the row above. Sort the rows by time, "
        "delete this one, or choose another order of day and month."))
