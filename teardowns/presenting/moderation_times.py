"""Ages and time left in words, and what waits too long without an owner."""
from __future__ import annotations

from datetime import datetime, timedelta

OWNERLESS = timedelta(hours=72)         # the project's own limit: common practice, no source


def span(length: timedelta) -> str:
    """A length of time in its largest unit that says enough: 40 min, 7 h, 3 days."""
    minutes = int(length.total_seconds() // 60)
    if minutes < 60:
        return f"{max(minutes, 0)} min"
    if minutes < 48 * 60:
        return f"{minutes // 60} h"
    return f"{minutes // (24 * 60)} days"


def age(since: datetime | None, now: datetime) -> str:
    return span(now - since) if since else "none"


def time_left(due: datetime, now: datetime) -> str:
    """How long until it is due, or how long it has been."""
    return f"{span(due - now)} left" if due > now else f"{span(now - due)} overdue"


def is_neglected(owner: str | None, since: datetime, now: datetime) -> bool:
    """Whether nobody has taken it on for longer than anything should wait."""
    return not owner and now - since > OWNERLESS


def moment(at: datetime | None) -> str:
    return f"{at:%Y-%m-%d %H:%M} UTC" if at else ""
