"""What stands beside the evidence in a document: replies and licences, as data."""
from __future__ import annotations

from typing import Any


def reply_row(reply: Any) -> dict[str, Any]:
    """A reply with its newest verified version: plain text as it was sent."""
    return {"about": reply.about, "by": reply.author_name, "version": reply.now_number,
            "received": reply.now_received_at.date().isoformat(), "language": reply.now_language,
            "text": reply.now_text, "disputes": reply.now_disputes, "answer": reply.now_answer}


def licence_row(one: Any) -> dict[str, Any]:
    """Under which terms something was handed in. Names are those of the SPDX list."""
    return {"author": one.author.get_username(), "agreed": one.at.date().isoformat(),
            "measurements": one.measurements, "works": one.works, "edition": one.edition,
            "text_sha256": one.text_sha256, "third_party": one.others}
