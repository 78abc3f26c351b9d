"""What a search asks an index for: words joined by and, or. Each database writes it its own way."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Union


@dataclass(frozen=True, slots=True)
class Token:
    """A word as the index holds it: letters of any script, digits and points, nothing else."""

    word: str
    is_start: bool = False          # any longer word that begins so will do


@dataclass(frozen=True, slots=True)
class AllOf:
    parts: tuple[Wanted, ...]


@dataclass(frozen=True, slots=True)
class AnyOf:
    parts: tuple[Wanted, ...]


Wanted = Union[Token, AllOf, AnyOf]     # noqa: UP007  (a name in quotes cannot be joined by |)
