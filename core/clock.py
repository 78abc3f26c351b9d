"""The time by which what expires has expired: it never goes back, as a machine's clock may.

Where a clock is set back, what had run out would open again. In a process time goes on by the clock
that counts from its start; a process that begins takes the newest entry of the log for the least
that it is. An entry that lies more than a day ahead is of a clock that was wrong, and not believed.
"""
from datetime import datetime, timedelta
from threading import Lock
from time import monotonic

from django.db import DatabaseError
from django.utils import timezone

BELIEVED = timedelta(days=1)
_lock = Lock()
_known: tuple[datetime, float] | None = None        # a time, and what the steady clock said then


def now() -> datetime:
    global _known
    wall = timezone.now()
    with _lock:
        if _known is None:
            _known = max(wall, _of_log(wall)), monotonic()
        at = _known[0] + timedelta(seconds=monotonic() - _known[1])
        if wall > at:
            _known, at = (wall, monotonic()), wall
        return at


def _of_log(wall):
    from core.audit.models import Entry  # models of accounts ask this module

    try:
        newest = Entry.objects.order_by("-sequence").values_list("at", flat=True).first()
    except DatabaseError:
        return wall
    return newest if newest and newest < wall + BELIEVED else wall
