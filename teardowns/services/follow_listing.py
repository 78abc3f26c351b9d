"""What a process makes of the whole listing and keeps, in line with the listing's clock.

Where nothing has changed, one small query tells so. What a transaction changed and took back is
never shown to another: a state that this connection does not see is thrown away, and read anew.
"""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock
from typing import Generic, TypeVar

from .listing_clock import Mark, current_mark, mark_and_whether_it_follows

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class _Held(Generic[Made]):
    mark: Mark
    made: Made


class Follower(Generic[Made]):
    """One thing made of the listing, which nobody alters once it is made."""

    def __init__(self, read_all: Callable[[], Made],
                 with_changes: Callable[[Made, int], Made | None],
                 kept: Callable[[], tuple[Mark, Made] | None] = lambda: None):
        """with_changes : of what is held and the number of the clock that it stands for; None
        where so much has changed that reading all is quicker
        kept : what the database keeps ready for who holds nothing, of a state that came before"""
        self._read_all, self._with_changes, self._kept = read_all, with_changes, kept
        self._held: _Held[Made] | None = None
        self._lock = Lock()

    def now(self, mark: Mark | None = None) -> Made:
        """As this connection sees the listing.

        mark : of the listing, where it was read a moment ago
        """
        held = self._held
        if held is not None and held.mark == (mark or current_mark()):
            return held.made
        with self._lock:
            return self._followed(self._held)

    def _followed(self, held: _Held[Made] | None) -> Made:
        # The mark is read first: rows that change meanwhile are read once more the next time.
        mark, follows = mark_and_whether_it_follows(held.mark if held else None)
        if held is not None and held.mark == mark:
            return held.made
        made = self._with_changes(held.made, held.mark.number) if held and follows else None
        made = self._begun(mark) if made is None else made
        if not mark.is_beginning:
            self._held = _Held(mark, made)
        return made

    def _begun(self, mark: Mark) -> Made:
        kept = None if mark.is_beginning else self._kept()
        made = self._with_changes(kept[1], kept[0].number) if kept else None
        return self._read_all() if made is None else made
