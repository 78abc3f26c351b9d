"""Where a bench sheet stands, in words for who wrote it."""
from __future__ import annotations

from teardowns.models import Status

WORDS = {
    Status.DRAFT: "draft", Status.SUBMITTED: "waiting for review", Status.IN_REVIEW: "in review",
    Status.SENT_BACK: "sent back", Status.WITHDRAWN: "withdrawn", Status.DECLINED: "declined",
}


def state_words(status: str, *, remarks: int = 0, version: int | None = None,
                quarantined: bool = False) -> str:
    """remarks : without an answer; version : number of the publication that stands"""
    if quarantined:
        return "hidden while a moderator looks into it"
    if status == Status.PUBLISHED:
        return f"published, version {version}" if version else "published"
    if status == Status.SENT_BACK and remarks:
        return f"sent back with {remarks} remark{'' if remarks == 1 else 's'}"
    return WORDS[Status(status)]


def correction_words(status: str, *, is_own: bool, remarks: int = 0) -> str:
    """Beside a published unit of which a correction is open."""
    if not is_own:
        return "somebody else’s correction is open"
    return f"your correction: {state_words(status, remarks=remarks)}"
