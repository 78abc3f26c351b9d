"""What the rulebook in force says of a public version otherwise than the one of its day."""
from __future__ import annotations

from typing import Any

from teardowns.exchange.verdict_changes import VerdictChanges, verdict_changes

from .verdict_difference import rulebook_words, verdict_difference

UNMOVED = "Another rulebook has come into force since: every verdict word and level stayed."
MOVED = "Was / is now: another rulebook has come into force since, and moved {}."


def now_and_then(publication: Any) -> dict | None:
    """Context of teardowns/_now_and_then.html; None where it stands as it was published.

    publication : with its `assessment` and `standing`
    """
    then, now = publication.assessment, publication.standing
    if then.rulebook == now.rulebook:
        return None
    moved = verdict_changes(then.payload, now.payload)
    return {"sentence": _sentence(moved), "verdicts": verdict_difference(moved),
            "rulebooks": f"By rulebook {rulebook_words(then.rulebook)} on "
                         f"{publication.published_at:%Y-%m-%d}, by {rulebook_words(now.rulebook)} "
                         "now."}


def _sentence(moved: VerdictChanges) -> str:
    words = len(moved.words)
    parts = [f"{words} verdict word{'s' if words != 1 else ''}"] if words else []
    parts += ["the gravest level"] if moved.level else []
    return MOVED.format(" and ".join(parts)) if parts else UNMOVED
