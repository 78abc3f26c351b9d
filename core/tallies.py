"""What is asked for often, counted in the process first and taken out of its bucket at once.

A bucket (core.buckets) makes a write of each request. Who only reads would wait for the one writer
of SQLite, and everybody for the disk. As long as much is left in a bucket a process lets a few
through on its word, and takes them with the next one; near its end each is taken by itself. While
few processes serve somebody, no more get through than the bucket holds.
"""
from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock
from time import monotonic, time

from core import buckets

PART, KEPT_BACK = 1 / 20, 1 / 5     # of a bucket: owed at most; left, below which nothing is owed
LONGEST = 1.0                       # s for which what is known of a bucket is believed
MOST_OWNERS = 20_000


@dataclass
class Tally:
    left: float                     # in the bucket, when it was looked at
    at: float                       # s, by a clock that only goes forward
    owed: int = 0                   # let through since


class Tallies:
    """Of those who asked last."""

    def __init__(self, clock: Callable[[], float] = monotonic):
        self._tallies: OrderedDict[tuple[str, object], Tally] = OrderedDict()
        self._lock, self._clock = Lock(), clock

    def take(self, name: str, owner: object, amount: float, per: float) -> tuple[int, float]:
        """As `buckets.take` does, and how many are left."""
        with self._lock:
            known = self._tallies.get((name, owner))
            if known and self._may_owe(known, amount):
                known.owed += 1
                return 0, known.left - known.owed
            owed = self._still_owed(self._tallies.pop((name, owner), None), amount / per)
        wait = buckets.take(name, owner, amount, per, min(owed + 1, amount))
        left = buckets.left_of(name, owner, amount, per, time())
        with self._lock:
            self._tallies[name, owner] = Tally(left, self._clock(), owed if wait else 0)
            if len(self._tallies) > MOST_OWNERS:
                self._tallies.popitem(last=False)
        return wait, left

    def clear(self) -> None:
        with self._lock:
            self._tallies.clear()

    def _may_owe(self, known, amount):
        return (known.owed < int(amount * PART) and self._clock() - known.at < LONGEST
                and known.left - known.owed - 1 > amount * KEPT_BACK)

    def _still_owed(self, known, rate):
        """After the time in which as many come back nothing is owed any more."""
        if known is None or self._clock() - known.at > known.owed / rate + LONGEST:
            return 0
        return known.owed


tallies = Tallies()
