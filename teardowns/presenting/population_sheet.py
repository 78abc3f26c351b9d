"""A population as its page prints it: picture, what it says, who is left out, and the table."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from typing import Any

import numpy as np
from django.urls import reverse

from teardowns.populations.listed import ListedNumbers

from .list_words import number_of
from .population_kinds import OPENED, PopulationKind
from .population_relation import claim_picture, claim_relation, mass_picture, mass_relation
from .population_spread import bulk_picture, bulk_spreads, margin_picture, margin_spreads
from .population_units import Picture, left_out, named, unknown_of

PAGE = 25                # rows of the table
MOST_KEPT = 2            # choices: each some 30 MB of a million units
Found = Any              # Relation or Spreads: with `rows` in the table's order, and `points`


@dataclass(frozen=True, slots=True)
class Asked:
    """chosen : (n,) bool, the units that the choice leaves; this : the row of the unit that the
    reader came from"""

    kind: PopulationKind
    numbers: ListedNumbers
    chosen: np.ndarray
    this: int | None
    page: int


@dataclass(frozen=True, slots=True)
class UnitLine:
    pk: int
    address: str
    title: str
    cells: Sequence[tuple[str, str]]         # head and text
    is_this: bool


@dataclass(frozen=True, slots=True)
class PopulationSheet:
    kind: PopulationKind
    opened: str
    count: str                   # "31 units drawn"
    is_empty: bool
    picture: Picture
    says: Sequence[str]
    this_says: str
    left_out: Sequence[str]
    lines: Sequence[UnitLine]
    page: int
    pages: int


@dataclass(frozen=True, slots=True)
class Population:
    """What was found, before the titles of its units are known."""

    asked: Asked
    found: Found
    left_out: Sequence[str]
    shown: Sequence[int]         # rows of the table's page
    pages: int

    @property
    def pks(self) -> list[int]:
        """Units whose titles the page prints."""
        rows = {*self.shown, *self.found.points.tolist()}
        return [int(self.asked.numbers.pks[row]) for row in rows]


def find_population(asked: Asked) -> Population:
    found, missing = _found(asked)
    pages = max(1, -(-len(found.rows) // PAGE))
    start = PAGE * (min(max(asked.page, 1), pages) - 1)
    shown = found.rows[start:start + PAGE].tolist()
    if asked.this is not None and shown and _is_drawn(asked):     # on any page, and first
        shown = [asked.this, *(row for row in shown if row != asked.this)]
    return Population(asked, found, missing, shown, pages)


def _found(asked: Asked) -> tuple[Found, list[str]]:
    """And who is left out. What was found last is kept as long as the units are the same: of all
    units at once each kind, of a choice the last, whose table somebody may leaf through."""
    kept, key = _of_all, (asked.kind.code, b"", None)
    if not asked.chosen.all():         # a unit outside of the choice is drawn beside it
        packed = np.packbits(asked.chosen).tobytes()
        kept, key = _of_some, (asked.kind.code, blake2b(packed).digest(), asked.this)
    numbers, found = kept.get(key, (None, None))
    if found is None or numbers is not asked.numbers:
        found = _sought(asked)
        if kept is _of_some:               # another thread may trim it at the same moment
            for old in [*kept][:1 - MOST_KEPT]:
                kept.pop(old, None)
        kept[key] = asked.numbers, found
    return found


def _sought(asked: Asked) -> tuple[Found, list[str]]:
    return (_FINDERS[asked.kind.code](asked),
            left_out(asked.kind, asked.numbers, asked.chosen))


def population_sheet(population: Population, titles: Mapping[int, str]) -> PopulationSheet:
    asked, found = population.asked, population.found
    picture = _DRAWERS[asked.kind.code](found, asked.numbers, titles, asked.this)
    count = len(found.rows)
    return PopulationSheet(
        asked.kind, OPENED, f"{number_of(count)} drawn", count == 0, picture,
        [*picture.says, *_where(found)] if count else (), _of_this(asked, count),
        population.left_out,
        [_line(asked, picture, titles, row) for row in population.shown],
        min(max(asked.page, 1), population.pages), population.pages)


def _where(found: Found) -> list[str]:
    points = "Each point leads to its unit; the" if len(found.points) else "The"
    return [f"{points} table below has the same units and numbers."]


def _line(asked: Asked, picture: Picture, titles: Mapping[int, str], row: int) -> UnitLine:
    pk = int(asked.numbers.pks[row])
    return UnitLine(pk, reverse("unit_detail", args=[pk]), named(titles, pk),
                    list(zip(picture.heads, picture.cells(row), strict=True)), row == asked.this)


def _is_drawn(asked: Asked) -> bool:
    return asked.this is not None and not unknown_of(asked.kind, asked.numbers, asked.this)


def _of_this(asked: Asked, count: int) -> str:
    """That this unit is marked, or why it is not; nothing where there is no picture."""
    if asked.this is None:
        return ""
    missing = unknown_of(asked.kind, asked.numbers, asked.this)
    if missing:
        return f"This unit is not drawn: it {' and '.join(missing)}."
    if not count:
        return ""
    if not asked.chosen[asked.this]:
        return "This unit is marked, though it is outside of what you narrowed the picture to."
    return "This unit is marked in the picture and stands first in the table."


# By kind, and by choice and marked unit: the newest.
_Kept = dict[tuple[str, bytes, int | None], tuple[ListedNumbers, tuple[Found, list[str]]]]
_of_all: _Kept = {}
_of_some: _Kept = {}
_FINDERS: dict[str, Callable[[Asked], Found]] = {
    "mass": lambda asked: mass_relation(asked.numbers, asked.chosen),
    "capability": lambda asked: claim_relation(asked.numbers, asked.chosen),
    "bulk": lambda asked: bulk_spreads(asked.numbers, asked.chosen, asked.this),
    "insulation": lambda asked: margin_spreads(asked.numbers, asked.chosen, asked.this),
}
_DRAWERS: dict[str, Callable[..., Picture]] = {
    "mass": mass_picture, "capability": claim_picture, "bulk": bulk_picture,
    "insulation": margin_picture,
}
