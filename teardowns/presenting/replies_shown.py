"""Replies of makers and sellers for pages and documents: whole, dated, as large as a finding."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from teardowns.exchange.beside import reply_row
from teardowns.models import Reply, ReplyState, Unit
from teardowns.models.replies import ReplyVersion
from teardowns.writing import render

from .discussion_thread import moment

PENDING = "Disputed by {name} on {day}; another review is pending."
WHOLE = "the whole record"


@dataclass(frozen=True, slots=True)
class ShownReply:
    pk: int
    anchor: str
    name: str                # of whom it is the statement
    about: str               # ref or scenario, "" for the whole record
    about_words: str
    number: int              # of the version
    received: str            # "2026-11-26"
    language: str            # for lang=
    html: SafeString
    disputes: bool
    answer: str              # what came of the dispute, "" while it is open
    answered: str            # day
    earlier: int             # versions before this one


def unit_replies(unit: Unit, names: Mapping[str, str] | None = None) -> dict[str, Any]:
    """Context of the part `_unit_replies.html`: one query.

    names : by ref, of evidence and findings; a ref without a name stands as it is
    """
    replies = shown_replies(unit, names)
    return {"unit": unit, "replies": replies, "disputes": dispute_marks(replies)}


def shown_replies(unit: Unit, names: Mapping[str, str] | None = None) -> list[ShownReply]:
    return [_shown(one, names or {}) for one in Reply.objects.shown().filter(unit=unit)]


def dispute_marks(replies: Iterable[ShownReply]) -> list[str]:
    """What stands at the head of the record while a dispute is open."""
    return [PENDING.format(name=one.name, day=one.received)
            for one in replies if one.disputes and not one.answer]


def _shown(reply, names):
    words = names.get(reply.about, reply.about) if reply.about else WHOLE
    return ShownReply(
        pk=reply.pk, anchor=f"reply-{reply.pk}", name=reply.author_name, about=reply.about,
        about_words=words, number=reply.now_number, received=f"{reply.now_received_at:%Y-%m-%d}",
        language=reply.now_language, html=mark_safe(render(reply.now_text)),
        disputes=reply.now_disputes, answer=reply.now_answer,
        answered=f"{reply.now_answered_at:%Y-%m-%d}" if reply.now_answered_at else "",
        earlier=reply.now_number - 1)


def replies_exported(unit: Unit) -> list[dict[str, Any]]:
    """The replies for a document of the unit, beside its evidence: plain text as it was sent."""
    return [reply_row(one) for one in Reply.objects.shown().filter(unit=unit)]


def reply_versions(versions: Iterable[ReplyVersion], *, whole: bool) -> list[dict[str, Any]]:
    """Every version of replies, for their page; whole : those not shown to everybody, too"""
    return [{"reply": one.reply_id, "number": one.number, "received": moment(one.received_at),
             "state": one.get_state_display(), "language": one.language,
             "html": mark_safe(render(one.text)), "reason": one.decision_reason}
            for one in versions if whole or one.state == ReplyState.VERIFIED]
