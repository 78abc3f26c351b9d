"""Units near to a plate, and in words why each is."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from teardowns.searching.claim_words import in_print

from .library_units import LibraryUnit, library_units

MOST_CLAIMS = 6             # that are spelt out


@dataclass(frozen=True, slots=True)
class NearRow:
    unit: LibraryUnit
    why: tuple[str, ...]


def near_rows(found: Sequence[Any], units: Any) -> list[NearRow]:
    """found : services.near_units; units : queryset of these units. Three queries."""
    known = {unit.pk: unit for unit in library_units(units)}
    return [NearRow(known[near.pk], tuple(_why(near, known[near.pk])))
            for near in found if near.pk in known]


def _why(near, unit):
    if near.same_model:
        yield f"the same model: {unit.model}"
    if near.same_maker:
        yield f"the same maker: {unit.maker}"
    if near.has_marking:
        yield "the marking is inside"
    if near.claims:
        spelt = ", ".join(map(in_print, near.claims[:MOST_CLAIMS]))
        more = ", …" if len(near.claims) > MOST_CLAIMS else ""
        yield f"{len(near.claims)} of {near.asked} ratings of your text: {spelt}{more}"
