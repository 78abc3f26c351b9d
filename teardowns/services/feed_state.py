"""Whether what the feeds tell has changed: a mark for ETag and a date for Last-Modified.

Nothing here reads more than the last row of a table that grows with the units. A mark may change
where a feed tells the same as before; never the reverse.
"""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from django.db.models import Max, Model
from django.utils import timezone

from core.audit.models import Entry
from teardowns.models import Assessment, ListingClock, ReviewDecision, StandingChange
from teardowns.models.replies import ReplyVersion

# A date has seconds: what changed just now may change again within the same one.
SETTLED = timedelta(seconds=2)


@dataclass(frozen=True)
class FeedState:
    etag: str
    changed_at: datetime | None          # None while a date could not tell two states apart


def feed_state(*extra: str) -> FeedState:
    """What publishing, withdrawing, hiding, assessing, confirming and replying left behind.

    extra : what else makes one feed differ from another
    """
    rows = [
        _last(Entry, "sequence", "hash", "at"),          # every decision of a person, and what
        _last(Assessment, "pk", "pk", "created_at"),     # jobs do without an entry
        _last(StandingChange, "pk", "pk"),
        _last(ListingClock, "pk", "number", "stamp"),
        _last(ReviewDecision, "pk", "pk", "created_at"),
        tuple(ReplyVersion.objects.order_by().aggregate(
            Max("decided_at"), Max("answered_at")).values()),
    ]
    found = [value for row in rows for value in row]
    mark = sha256(repr((rows, extra)).encode()).hexdigest()
    dates = [value for value in found if isinstance(value, datetime)]
    newest = max(dates, default=None)
    settled = newest is not None and timezone.now() - newest > SETTLED
    return FeedState(f'"{mark[:32]}"', newest if settled else None)


def _last(model: type[Model], order: str, *columns: str) -> tuple[object, ...]:
    """By an order that has an index."""
    rows = model._default_manager.order_by(f"-{order}").values_list(*columns)
    return rows.first() or ()
