"""Replies that moderators have to look at, with the time left."""
from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from typing import Any

from django.utils import timezone
from django.utils.safestring import mark_safe

from teardowns.models import ReplyState
from teardowns.models.replies import ReplyVersion
from teardowns.writing import render

from .discussion_thread import moment

WITHIN = timedelta(days=7)       # a first decision: the project's own target, no source
WHOLE = "the whole record"


def replies_waiting(versions: Iterable[ReplyVersion]) -> list[dict[str, Any]]:
    now = timezone.now()
    return [{"pk": one.pk, "title": one.reply.unit.title, "name": one.reply.author_name,
             "number": one.number, "received": moment(one.received_at),
             "task": "check for whom it speaks" if one.state == ReplyState.WAITING
             else "look into the dispute", "left": _left(one.received_at + WITHIN - now)}
            for one in versions]


def _left(time):
    hours = round(time.total_seconds() / 3600)
    if hours < 0:
        return f"{-hours} h late" if hours > -48 else f"{-hours // 24} days late"
    return f"{hours} h left" if hours < 48 else f"{hours // 24} days left"


def reply_to_check(version: ReplyVersion) -> dict[str, Any]:
    return {"received": moment(version.received_at), "html": mark_safe(render(version.text)),
            "about": version.reply.about or WHOLE}
