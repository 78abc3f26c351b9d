"""What reviewers said of rows of evidence, and what follows from it for a row.

A word is kept for good; a later one of the same reviewer on the same version takes its place.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot

OPEN, CONFIRMED, DISPUTED, REMEASURED = "open", "confirmed", "disputed", "remeasured"


@dataclass(frozen=True, slots=True)
class Row:
    """A row of evidence as far as its review is concerned."""

    ref: str
    version: int
    author: int               # who entered it
    review_state: str = OPEN


@dataclass(frozen=True, slots=True)
class Word:
    """What one reviewer said of one version of one row."""

    ref: str
    version: int
    reviewer: int
    decision: str
    agrees: bool | None = None        # of a second reading: with the first; None: cannot be told
    reason: str = ""
    work: int | None = None           # the correction that was under review, None: the unit itself

    @property
    def speaks(self) -> int:
        """1 for the row, −1 against it, 0 neither."""
        if self.decision == REMEASURED:
            return {True: 1, False: -1, None: 0}[self.agrees]
        return {CONFIRMED: 1, DISPUTED: -1}.get(self.decision, 0)


def last_words(row: Row, words: Iterable[Word], contributor: int | None = None) -> dict[int, Word]:
    """By reviewer, the last word on the row as it stands; nobody's word on rows of their own.

    words : in the order in which they were said; contributor : of the work, who never counts
    """
    return {word.reviewer: word for word in words
            if word.ref == row.ref and word.version == row.version
            and word.reviewer not in (row.author, contributor)}


def state_of(words: Iterable[Word]) -> str:
    """The state that last words give a row.

    Whoever disputes it, and a second reading that does not agree, outweigh everybody else: the row
    counts no more until it is changed or they say otherwise. One confirmation confirms. A second
    reading that agrees counts as much, and says so by its own name. One of which nobody can tell
    whether it agrees leaves the row open.
    """
    found = list(words)
    if any(word.speaks < 0 for word in found):
        return DISPUTED
    if any(word.decision == CONFIRMED for word in found):
        return CONFIRMED
    return REMEASURED if any(word.speaks > 0 for word in found) else OPEN


def reading_agrees(first: float | None, first_u: float | None, second: float | None,
                   second_u: float | None) -> bool | None:
    r"""Whether a second reading bears out the first; None where that cannot be told.

    first_u, second_u : standard uncertainties, k = 1; None where nobody stated one

    .. math:: |E_n| = |a - b| / (2 \sqrt{u_a^2 + u_b^2}) \le 1

    ISO 13528:2022, 9.7 (from memory).
    """
    if first is None or second is None or first_u is None or second_u is None:
        return None
    spread = hypot(first_u, second_u)
    return None if spread == 0.0 else abs(first - second) <= 2.0 * spread


def lies_within(kind: str, limit: float, value: float, u: float | None) -> bool | None:
    """Whether a second reading lies on the side of a limit that the first one says; None where its
    own uncertainty leaves that open.

    kind : above, at_least, below or at_most; u : standard uncertainty, None: not stated
    """
    beyond = value - limit if kind in ("above", "at_least") else limit - value
    return None if abs(beyond) < 2.0 * (u or 0.0) else beyond >= 0.0


def grouped(words: Iterable[Word]) -> Mapping[str, list[Word]]:
    """By ref, in their order."""
    found: dict[str, list[Word]] = {}
    for word in words:
        found.setdefault(word.ref, []).append(word)
    return found
