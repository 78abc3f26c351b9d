"""How far the review of a unit has come: which rows are asked, which have been decided, by whom."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .words import CONFIRMED, DISPUTED, REMEASURED, Row, Word, grouped, last_words, state_of

BELIEVED = (CONFIRMED, REMEASURED)


@dataclass(frozen=True, slots=True)
class RowProgress:
    row: Row
    is_asked: bool                    # False: unchanged, and confirmed before this work
    words: dict[int, Word]            # by reviewer, the last one on the row as it stands
    state: str

    @property
    def is_decided(self) -> bool:
        return bool(self.words)


@dataclass(frozen=True, slots=True)
class Progress:
    rows: tuple[RowProgress, ...]

    @property
    def asked(self) -> tuple[RowProgress, ...]:
        return tuple(each for each in self.rows if each.is_asked)

    @property
    def decided(self) -> tuple[RowProgress, ...]:
        """Of those asked, by at least one reviewer."""
        return tuple(each for each in self.asked if each.is_decided)

    @property
    def disputed(self) -> tuple[str, ...]:
        return tuple(each.row.ref for each in self.rows if each.state == DISPUTED)

    @property
    def is_complete(self) -> bool:
        """Whether every row that is asked has a decision; work without rows asks nothing."""
        return len(self.decided) == len(self.asked)

    def asked_of(self, reviewer: int) -> tuple[RowProgress, ...]:
        """What this person is to decide: nobody decides on rows of their own."""
        return tuple(each for each in self.asked if each.row.author != reviewer)

    def decided_by(self, reviewer: int) -> tuple[RowProgress, ...]:
        return tuple(each for each in self.asked_of(reviewer) if reviewer in each.words)


def progress(rows: Sequence[Row], words: Iterable[Word], contributor: int,
             work: int | None = None) -> Progress:
    """How far it has come.

    words : all that were ever said of the unit, in their order
    contributor : the author of the work; work : the correction under review, None: the unit itself
    """
    said = grouped(words)
    return Progress(tuple(_row(row, said.get(row.ref, ()), contributor, work) for row in rows))


def _row(row, words, contributor, work):
    last = last_words(row, words, contributor)
    return RowProgress(row, not _is_settled(row, words, contributor, work), last,
                       state_of(last.values()) if last else row.review_state)


def _is_settled(row, words, contributor, work):
    """Of a correction: whether the row stands as it was believed before the correction."""
    if work is None:
        return False
    before = last_words(row, [word for word in words if word.work != work], contributor)
    if before:
        return state_of(before.values()) in BELIEVED
    spoken_of_now = any(word.version == row.version for word in words)
    return row.review_state in BELIEVED and not spoken_of_now
