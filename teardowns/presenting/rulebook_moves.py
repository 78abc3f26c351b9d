"""What each rulebook moved: units, claims whose word is another, levels that are another."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.marks import verdict_chip

from .record_foot import rulebook_text
from .verdict_difference import NO_LEVEL

NOT_JUDGED = "not judged"


@dataclass(frozen=True, slots=True)
class Moves:
    """One thing that moved: `name`, was, is now."""

    name: str
    was: str | SafeString
    now: str | SafeString


@dataclass(frozen=True, slots=True)
class MovedUnit:
    href: str
    title: str
    version: str                 # "version 2"
    since: str                   # the rulebook before, and the day
    moves: list[Moves]


@dataclass(frozen=True, slots=True)
class RulebookMoves:
    anchor: str
    rulebook: str
    units: list[MovedUnit]


def rulebook_moves(changes: Iterable[Any]) -> list[RulebookMoves]:
    """changes : of a page, in their order, each with publication, its unit, was and now"""
    return [RulebookMoves(f"rulebook-{place}", rulebook_text(version), [_unit(one) for one in of])
            for place, (version, of) in enumerate(groupby(changes, lambda one: one.rulebook), 1)]


def _unit(one) -> MovedUnit:
    unit = one.publication.unit
    return MovedUnit(unit.get_absolute_url(), one.publication.title, str(one.publication),
                     f"before: {rulebook_text(one.was.rulebook)}; {one.at:%Y-%m-%d}", _moves(one))


def _moves(one) -> list[Moves]:
    found = [Moves(f"“{name}”", *map(_word, said)) for name, *said in one.words]
    if one.levels:
        found.append(Moves("Gravest level of risk", *(level or NO_LEVEL for level in one.levels)))
    return found


def _word(word):
    return mark_safe(verdict_chip(word)) if word else NOT_JUDGED
