"""What pictures of a population share: numbers in print, points that know their unit, who is left
out and why."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np
from django.urls import reverse
from django.utils.safestring import SafeString

from core.words.said import said
from teardowns.figures.plane import Point
from teardowns.populations.listed import ListedNumbers

from .list_words import number_of
from .numbers import number, with_unit
from .population_kinds import PopulationKind

UNKNOWN = "not known"
LONGEST = 60             # characters of a title beside a point
PLURALS = {"was": "were", "had": "had", "states": "state", "has": "have"}


@dataclass(frozen=True, slots=True)
class Legend:
    mark: str            # class of the sample: "pt", "band", "ink2"
    words: str

    @property
    def is_dot(self) -> bool:
        return self.mark in ("pt", "pt-o")


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, what it says, and how the table below tells its units."""

    drawing: SafeString
    says: Sequence[str]
    legend: Sequence[Legend]
    heads: Sequence[str]                          # of the columns after the unit's name
    order: str                                    # of the rows, in words
    cells: Callable[[int], Sequence[str]]         # of one row of `ListedNumbers`


def watts(value: float) -> str:
    return in_unit(value, "W")


def grams(value: float) -> str:
    return in_unit(value, "g")


def in_unit(value: float, unit: str) -> str:
    """Three digits; the unit as it is, so that all rows of a table have one."""
    return with_unit(number(value), unit) if isfinite(value) else UNKNOWN


def times(ratio: float) -> str:
    return f"× {number(ratio, 2)}" if isfinite(ratio) else UNKNOWN


def point(numbers: ListedNumbers, row: int, x: float, y: float, hint: str,
          names: Mapping[int, str], is_open: bool = False) -> Point:
    pk = int(numbers.pks[row])
    told = f"{shortened(named(names, pk))}: {said(hint)}"
    return Point(x, y, reverse("unit_detail", args=[pk]), told, is_open)


def shortened(title: str) -> str:
    """For what a pointer is told: a page has hundreds of them."""
    return title if len(title) <= LONGEST else f"{title[:LONGEST - 1].rstrip()}…"


def named(names: Mapping[int, str], pk: int) -> str:
    return names.get(pk) or f"unit {pk}"


def left_out(kind: PopulationKind, numbers: ListedNumbers, chosen: np.ndarray) -> list[str]:
    """Who is not drawn since a fact is unknown: `9 units: was not weighed`."""
    missing = {words: int((chosen & ~_is_known(numbers, column)).sum())
               for column, words in kind.needs.items()}
    return [f"{number_of(count)} {_plural(words, count)}"
            for words, count in missing.items() if count]


def _plural(words: str, count: int) -> str:
    if count == 1:
        return words
    verb, _, rest = words.partition(" ")
    return f"{PLURALS[verb]} {rest}"


def unknown_of(kind: PopulationKind, numbers: ListedNumbers, row: int) -> list[str]:
    """Why one unit is not drawn."""
    return [words for column, words in kind.needs.items()
            if not _is_known(numbers, column, slice(row, row + 1))[0]]


def _is_known(numbers: ListedNumbers, column: str, rows: slice = slice(None)) -> np.ndarray:
    """Nothing weighs nothing and delivers nothing: such a number is none. A distance can be 0."""
    values = numbers[column][rows]
    return np.isfinite(values) & ((values > 0) | (column == "insulation_margin"))
