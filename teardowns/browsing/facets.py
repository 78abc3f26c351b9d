"""What units are narrowed by: a facet gives each unit codes, which it reads from one column."""
from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

NONE = "none"                       # the code of what is not known or not there


@dataclass(frozen=True, slots=True)
class Facet:
    """A question that the units answer, each with none, one or several codes."""

    code: str
    label: str
    column: str                                      # of the row that it reads
    codes: Callable[[Any], tuple[str, ...]]          # of a value of that column; without twins
    values: Mapping[str, str] = field(default_factory=dict)      # code → label, as they are shown
    has_many: bool = False           # of thousands of codes only the most frequent are counted

    def label_of(self, code: str) -> str:
        return self.values.get(code, code)


@dataclass(frozen=True, slots=True)
class Bands:
    """Intervals of a number, each above its lower end and up to its upper end."""

    ends: Sequence[float]            # upper ends, rising; the last band has none
    names: Sequence[str]             # one more than ends

    def __call__(self, value: float | None) -> tuple[str, ...]:
        return (NONE,) if value is None else (self.names[bisect_left(self.ends, value)],)


def one_of(value: str) -> tuple[str, ...]:
    """The value itself is the code; an empty one is none."""
    return (value or NONE,)


def each_of(values: Iterable[str]) -> tuple[str, ...]:
    """Every value is a code; without any it is none."""
    return tuple(values) or (NONE,)


def if_any(value: str) -> tuple[str, ...]:
    """The value is the code; an empty one gives none at all."""
    return (value,) if value else ()
