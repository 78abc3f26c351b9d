"""Things that a reviewer will ask for, each with what the bench sheet says to it."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from teardowns.models import State

from .progress_cells import progress_cells

THERE, PARTLY, MISSING, NONE_OF_IT = "there", "partly", "missing", "not_applicable"
IN_WORDS = {
    THERE: "There", PARTLY: "In part", MISSING: "Missing", NONE_OF_IT: "Does not apply",
    State.NOT_FOUND: "Looked, not found", State.NOT_READABLE: "Not readable",
    State.NOT_LOOKED: "Not looked",
}
# To have looked in vain is an answer: nobody shall invent one.
ANSWERS = frozenset({THERE, State.NOT_FOUND, State.NOT_READABLE})
# Of several rows the one that says most speaks.
SAYS_MOST = (State.RECORDED, State.NOT_READABLE, State.NOT_FOUND, State.NOT_LOOKED)


@dataclass(frozen=True, slots=True)
class Asked:
    title: str
    state: str               # a key of IN_WORDS
    words: str               # "2 of 3", or what would answer it; may be empty
    address: str             # where it is entered

    @property
    def is_answered(self) -> bool:
        return self.state in ANSWERS

    @property
    def is_open(self) -> bool:
        return not self.is_answered and self.state != NONE_OF_IT

    @property
    def in_words(self) -> str:
        return IN_WORDS[self.state]


@dataclass(frozen=True, slots=True)
class AskedGroup:
    title: str
    items: tuple[Asked, ...]

    @property
    def asked(self) -> int:
        return sum(item.state != NONE_OF_IT for item in self.items)

    @property
    def answered(self) -> int:
        return sum(item.is_answered for item in self.items)

    @property
    def count(self) -> str:
        return f"{self.answered} of {self.asked}" if self.asked else "none asked"


@dataclass(frozen=True, slots=True)
class Completeness:
    groups: tuple[AskedGroup, ...]

    @property
    def answered(self) -> int:
        return sum(group.answered for group in self.groups)

    @property
    def asked(self) -> int:
        return sum(group.asked for group in self.groups)

    @property
    def cells(self) -> list[dict[str, str]]:
        return progress_cells(self.answered, self.asked)

    @property
    def open(self) -> list[Asked]:
        return [item for group in self.groups for item in group.items if item.is_open]


def said(states: Iterable[str]) -> str:
    """The state that the rows of one thing come to."""
    known = set(states)
    found = next((state for state in SAYS_MOST if state in known), MISSING)
    return THERE if found == State.RECORDED else found


def told(good: int, of: int) -> str:
    """The state of something that each of several shall have."""
    return NONE_OF_IT if not of else THERE if good == of else PARTLY if good else MISSING
