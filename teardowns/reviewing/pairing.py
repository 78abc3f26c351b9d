"""How often one reviewer has met one contributor: a rule of our own against rings of two.

Of ten reviews of a contributor's work at most two are by the same reviewer. Ten are needed before
the rule binds; below that a moderator is told, and decides.
"""
from __future__ import annotations

MOST = 0.2
BINDS_FROM = 10              # reviews of the contributor's work, all reviewers together
TOLD_FROM = 3                # reviews by the same reviewer, while the rule does not bind yet


def is_refused(own: int, everyones: int) -> bool:
    """Whether one more review by this person would be above the share.

    own : closed reviews of this contributor's work by this reviewer; everyones : by anybody
    """
    return everyones >= BINDS_FROM and own + 1 > MOST * (everyones + 1)


def remark(reviewer: str, own: int, everyones: int) -> str:
    """What a moderator is told of the pair, or nothing."""
    if own < TOLD_FROM or own <= MOST * everyones:
        return ""
    return (f"{own} of {everyones} reviews of this contributor’s work are by {reviewer}; "
            "of ten at most two should be.")
