"""One public record as it goes into bulk data."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Record:
    """A version that stands, and what the rulebook in force makes of its confirmed evidence."""

    unit: int                             # number of its page
    version: int
    published_at: str                     # ISO 8601
    address: str                          # of the version, lasting
    document: Mapping[str, Any]           # full, of the exchange form
    report: Mapping[str, Any]             # of the engine
    licences: Sequence[Mapping[str, Any]] = field(default=())
    replies: Sequence[Mapping[str, Any]] = field(default=())

    @property
    def uid(self) -> str:
        return self.document["unit"]["uid"]
