"""Public units that look as if they shared a board with one, with what speaks for and against."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import log

from django.db.models import Case, Count, FloatField, Sum, Value, When

from teardowns.likeness.compare import Comparison, compare
from teardowns.likeness.features import Feature, from_plain
from teardowns.likeness.words import words
from teardowns.models import Likeness, LikenessCount, LikenessWord

LEAST = 0.3                  # score below which two units are not called similar; our own choice
CANDIDATES = 60              # units that are compared in full
# Words that a search goes by, from the rarest on, and rows of the index that it may read: what
# nearly every unit has singles out nobody.
MOST_WORDS, BUDGET = 8, 10_000


@dataclass(frozen=True, slots=True)
class Similar:
    """A unit that is like another one; ours, in the comparison, is the one asked about."""

    unit_pk: int
    comparison: Comparison

    @property
    def score(self) -> float:
        """0 to 1, a rank and no probability."""
        return self.comparison.score


@dataclass(frozen=True, slots=True)
class Rarities:
    """How many public units have each of some words."""

    units: int
    by_word: Mapping[int, int]

    def units_with(self, word: int) -> int:
        return self.by_word.get(word, 1)


def similar_units(unit_pk: int, *, limit: int = 20, least: float = LEAST) -> list[Similar]:
    """The best first; empty for a unit that is not public. Five queries."""
    one = Likeness.objects.filter(unit=unit_pk).values_list("features", flat=True).first()
    if not one:
        return []
    mine = from_plain(one)
    rarities = rarities_of(words(mine))
    found = compared(mine, likeliest(unit_pk, rarities), rarities)
    return [each for each in found if each.score >= least][:limit]


def rarities_of(some: frozenset[int]) -> Rarities:
    """As of the last count; words that are newer, and rare, are counted now."""
    known = dict(LikenessCount.objects.filter(
        word__in=[LikenessCount.EVERY_UNIT, *some]).values_list("word", "units"))
    units = known.pop(LikenessCount.EVERY_UNIT, None) or Likeness.objects.count()
    fresh = LikenessWord.objects.filter(word__in=some - known.keys())
    known |= dict(fresh.values("word").annotate(units=Count("unit")).values_list("word", "units"))
    return Rarities(units, known)


def likeliest(unit_pk: int, rarities: Rarities) -> list[int]:
    """Units that share the rarest words, by how rare what they share is."""
    chosen = _affordable(rarities)
    if not chosen:
        return []
    weight = Case(*(When(word=word, then=Value(log(1 + rarities.units / units)))
                    for word, units in reversed(chosen)),      # the commonest is asked for first
                  output_field=FloatField())
    found = LikenessWord.objects.filter(word__in=[word for word, _ in chosen]).exclude(
        unit=unit_pk).values("unit").annotate(weight=Sum(weight))
    return [row["unit"] for row in found.order_by("-weight", "unit")[:CANDIDATES]]


def _affordable(rarities):
    chosen, rows = [], 0
    rarest = sorted(rarities.by_word.items(), key=lambda pair: pair[::-1])
    for word, units in rarest[:MOST_WORDS]:
        rows += units
        if rows > BUDGET:
            break
        chosen.append((word, units))
    return chosen


def compared(mine: tuple[Feature, ...], pks: list[int], rarities: Rarities) -> list[Similar]:
    """Each of these units compared in full, the best first."""
    rows = Likeness.objects.filter(unit__in=pks).values_list("unit", "features")
    made = [Similar(pk, compare(mine, from_plain(theirs), rarities.units_with, rarities.units))
            for pk, theirs in rows]
    return sorted(made, key=lambda each: (-each.score, each.unit_pk))
