"""Parts and families that a search found besides units, as links."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

from teardowns.models import BoardFamily, Part


@dataclass(frozen=True, slots=True)
class Also:
    what: str               # "part", "board family"
    name: str
    about: str              # what a part does, or ""
    address: str


def also_found(parts: Sequence[int], families: Sequence[int]) -> list[Also]:
    """In the order found; a query for each kind of which something was."""
    known_parts = Part.objects.listed().in_bulk(parts) if parts else {}
    known_families = BoardFamily.objects.in_bulk(families) if families else {}
    return list(chain(
        (Also("part", part.marking, part.function, part.get_absolute_url())
         for part in map(known_parts.get, parts) if part),
        (Also("board family", family.name, "", family.get_absolute_url())
         for family in map(known_families.get, families) if family)))
