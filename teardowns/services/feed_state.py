"""Whether what the feeds tell has changed: a mark for ETag and a date for Last-Modified."""
from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from django.db.models import Count, Max
from django.utils import timezone

from teardowns.models import (
    BoardFamilyMember,
    HiddenNow,
    Publication,
    ReviewDecision,
    Statement,
)
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
    public = Publication.objects.current().order_by().aggregate(
        Max("published_at"), Max("standing__created_at"), Max("standing"), Count("pk"))
    others = [
        Statement.objects.order_by().aggregate(Max("at")),
        HiddenNow.objects.order_by().aggregate(Max("at"), Max("ended_at")),
        ReviewDecision.objects.order_by().aggregate(Max("created_at"), Max("pk")),
        ReplyVersion.objects.order_by().aggregate(Max("decided_at"), Max("answered_at")),
        BoardFamilyMember.objects.order_by().aggregate(Max("decided_at"), Max("removed_at")),
    ]
    found = [value for row in (public, *others) for value in row.values()]
    mark = sha256(repr((found, extra)).encode()).hexdigest()
    dates = [value for value in found if isinstance(value, datetime)]
    newest = max(dates, default=None)
    settled = newest is not None and timezone.now() - newest > SETTLED
    return FeedState(f'"{mark[:32]}"', newest if settled else None)
