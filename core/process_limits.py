"""Limits on how often something is asked for that writes nothing: counted in this process.

A bucket in the database (core/buckets.py) would make a write of each question, and keep readers
waiting where a writer is. Here each process counts for itself: with several, so many times more
are let through, which is still an end to it.
"""
import math
from collections import OrderedDict
from collections.abc import Callable
from functools import wraps
from threading import Lock
from time import monotonic

from django.http import HttpRequest, HttpResponse

from core.buckets import MINUTE, network_of, too_many

MOST_OWNERS = 20_000            # buckets that a process keeps: those asked for last


class Buckets:
    """Each holds `amount` and fills up in `per` seconds."""

    def __init__(self, most: int = MOST_OWNERS):
        self._left: OrderedDict[tuple[str, object], tuple[float, float]] = OrderedDict()
        self._most, self._lock = most, Lock()

    def take(self, name: str, owner: object, amount: float, per: float,
             now: float | None = None) -> int:
        """0 when one was taken, else the seconds after which there is one again."""
        now, rate = monotonic() if now is None else now, amount / per
        with self._lock:
            left, at = self._left.pop((name, owner), (amount, now))
            left = min(amount, left + max(now - at, 0.0) * rate)
            wait = 0 if left >= 1 else max(1, math.ceil((1 - left) / rate))
            self._left[name, owner] = (left if wait else left - 1, now)
            if len(self._left) > self._most:
                self._left.popitem(last=False)
        return wait


buckets = Buckets()


def asked_seldom(name: str, most: Callable[[], float], *, per: float = MINUTE,
                 counts: Callable[[HttpRequest], bool] = lambda request: True) -> Callable:
    """Decorate a view: an account, or a network of those not signed in, has a bucket.

    most : how many a network may in `per` seconds, asked each time; counts : whether a request is
    one of them. Beyond it the answer is 429 with Retry-After.
    """
    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def counted(request, *args, **kwargs):
            if counts(request) and (wait := buckets.take(name, owner_of(request), most(), per)):
                return too_many(request, wait)
            return view(request, *args, **kwargs)
        return counted
    return decorate


def owner_of(request: HttpRequest) -> str:
    if request.user.is_authenticated:
        return f"account {request.user.pk}"
    return f"network {network_of(request)}"
