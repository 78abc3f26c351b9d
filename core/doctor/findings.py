"""What a check finds, and the list of all checks."""
from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from django.db import DatabaseError, connection

logger = logging.getLogger(__name__)


class Level(StrEnum):
    GOOD = "good"
    NOTE = "note"               # worth knowing; nothing has to be done
    WARNING = "warning"         # works, and one thing more may go wrong than need be
    FAULT = "fault"             # does not work, or loses or gives away something


@dataclass(frozen=True)
class Finding:
    level: Level
    said: str
    remedy: str = ""
    subject: str = ""           # of which file, filled in by `examine`


Check = Callable[[], Iterable[Finding]]


@dataclass(frozen=True)
class Examined:
    subject: str
    check: Check
    asks_database: bool


CHECKS: list[Examined] = []
FIRST = ("database", "migrations")


def examines(subject: str, *, asks_database: bool = False) -> Callable[[Check], Check]:
    """Put a check, which yields findings, on the list; checks run in the order of the subjects."""
    def added(check: Check) -> Check:
        CHECKS.append(Examined(subject, check, asks_database))
        return check
    return added


def good(said: str) -> Finding:
    return Finding(Level.GOOD, said)


def note(said: str, remedy: str = "") -> Finding:
    return Finding(Level.NOTE, said, remedy)


def warning(said: str, remedy: str) -> Finding:
    return Finding(Level.WARNING, said, remedy)


def fault(said: str, remedy: str) -> Finding:
    return Finding(Level.FAULT, said, remedy)


def examine(subjects: Iterable[str] = ()) -> Iterator[Finding]:
    """All findings, those of one subject together, or of the named subjects alone."""
    named = set(subjects) or {each.subject for each in CHECKS}
    wanted = sorted((each for each in CHECKS if each.subject in named), key=_place)
    answers, is_behind = any(each.asks_database for each in wanted) and _database_answers(), False
    for examined in wanted:
        if answers or not examined.asks_database:
            for found in _found(examined, is_behind):
                is_behind |= examined.subject == "migrations" and found.level == Level.FAULT
                yield Finding(found.level, found.said, found.remedy, examined.subject)


def _place(examined):
    """What others hang on comes first."""
    return (examined.subject not in FIRST, examined.subject)


def _database_answers() -> bool:
    try:
        connection.ensure_connection()
    except DatabaseError:
        return False
    return True


def _found(examined: Examined, is_behind: bool) -> Iterator[Finding]:
    """A check that breaks is a finding itself: the others go on. Where tables are not there yet,
    that has been said.
    """
    try:
        yield from examined.check()
    except Exception as error:
        if is_behind and isinstance(error, DatabaseError):
            return
        logger.debug("A check of %s broke.", examined.subject, exc_info=True)
        yield fault(f"The check “{examined.check.__name__}” broke: {type(error).__name__}.",
                    "Run it again with LOG_LEVEL=DEBUG to see where; the other checks were made.")
