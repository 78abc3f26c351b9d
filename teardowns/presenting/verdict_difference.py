"""What two reports on one unit say differently: was, is now."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import Quoted
from teardowns.engine.risk import BESIDE
from teardowns.exchange.verdict_changes import Moved, VerdictChanges
from teardowns.figures.marks import check_mark, grade_mark, verdict_chip

from .numbers import number, p_equals, span, with_unit
from .record_foot import rulebook_text

NOT_SAID = "not said"
NO_LEVEL = "no level"
ENDS = {"low": "Capability at the low end of the mains range",
        "high": "Capability at the high end of the mains range"}
SAME_WORDS = "Nothing that the reports say differs."


@dataclass(frozen=True, slots=True)
class WasNow:
    name: str
    was: str | SafeString
    now: str | SafeString
    remarks: tuple[str, ...] = ("", "")        # in small, below each

    @property
    def shows(self) -> bool:
        """Whether the difference is in what is printed."""
        return (self.was, self.remarks[0]) != (self.now, self.remarks[1])


@dataclass(frozen=True, slots=True)
class VerdictDifference:
    claims: list[WasNow]
    capability: list[WasNow]
    safety: list[WasNow]         # level, findings, grades
    checks: list[WasNow]
    rulebooks: str               # "" where both are of one rulebook
    unseen: str                  # of numbers whose printed digits are the same, "" for none

    @property
    def tables(self) -> list[tuple[str, list[WasNow]]]:
        named = (("Claims", self.claims), ("Capability", self.capability),
                 ("Insulation and hazards", self.safety), ("Checks", self.checks))
        return [(title, rows) for title, rows in named if rows]

    @property
    def nothing(self) -> str:
        return "" if self.tables or self.unseen else SAME_WORDS


def verdict_difference(moved: VerdictChanges) -> VerdictDifference:
    safety = [*_level(moved.level), *map(_finding, moved.findings), *map(_grade, moved.grades)]
    lists = [list(map(_claim, moved.claims)), list(map(_capability, moved.capability)), safety,
             list(map(_check, moved.checks))]
    shown = [[one for one in rows if one.shows] for rows in lists]
    return VerdictDifference(*shown, rulebooks=_rulebooks(moved.rulebook),
                             unseen=_unseen(sum(map(len, lists)) - sum(map(len, shown))))


def _unseen(count: int) -> str:
    if not count:
        return ""
    rows = "one statement" if count == 1 else f"{count} statements"
    return f"In {rows} more, numbers moved by less than the digits that are printed."


def rulebook_words(version: str | None) -> str:
    return rulebook_text(version) if version else "no assessment"


def _rulebooks(moved: Moved | None) -> str:
    if moved is None:
        return ""
    return (f"By rulebook {rulebook_words(moved.was)} then, and by {rulebook_words(moved.now)} "
            "now: part of the difference may be the rulebook’s.")


def _claim(moved: Moved) -> WasNow:
    said = moved.now or moved.was
    name = Quoted(said["printed"]) if said.get("printed") else said["text"]
    return WasNow(name, *(mark_safe(verdict_chip(one["verdict"])) if one else NOT_SAID
                          for one in (moved.was, moved.now)),
                  tuple(_ends(one) for one in (moved.was, moved.now)))


def _ends(claim) -> str:
    """`p = 0.91`, with the other mains end where that differs."""
    if claim is None:
        return ""
    low, high = (p_equals(claim["ends"][end]) for end in ("low", "high"))
    return low if low == high else f"{low} at the low end of the mains, {high} at the high end"


def _capability(moved: Moved) -> WasNow:
    return WasNow(ENDS[moved.about], *(_watts(one) for one in (moved.was, moved.now)),
                  tuple(_interval(one) for one in (moved.was, moved.now)))


def _watts(found):
    return "cannot tell" if found is None else with_unit(number(found["median"]), "W")


def _interval(found):
    if found is None:
        return ""
    return f"90 %: {with_unit(span(found['low'], found['high']), 'W')}"


def _level(moved: Moved | None) -> list[WasNow]:
    if moved is None:
        return []
    words = [NOT_SAID if level is None else level or NO_LEVEL for level in (moved.was, moved.now)]
    remarks = tuple(BESIDE if level else "" for level in (moved.was, moved.now))
    return [WasNow("Level of risk of the gravest finding", *words, remarks)]


def _finding(moved: Moved) -> WasNow:
    title = (moved.now or moved.was)["title"]
    return WasNow(f"Finding: {title}", *(one["level"] if one else "none"
                                         for one in (moved.was, moved.now)))


def _grade(moved: Moved) -> WasNow:
    said = moved.now or moved.was
    name = f"{said['title']}: {said['subject']}" if said["subject"] else said["title"]
    return WasNow(name, *(mark_safe(grade_mark(one["grade"])) if one else NOT_SAID
                          for one in (moved.was, moved.now)))


def _check(moved: Moved) -> WasNow:
    said = moved.now or moved.was
    name = f"{said['title']}, port {said['port']}" if said["port"] else said["title"]
    return WasNow(name, *(mark_safe(check_mark(one["outcome"])) if one else NOT_SAID
                          for one in (moved.was, moved.now)))
