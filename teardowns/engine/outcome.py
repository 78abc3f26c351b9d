"""What a consistency check says."""
from collections.abc import Mapping
from dataclasses import dataclass, field

CONSISTENT, INCONSISTENT, CANNOT_TELL = "consistent", "inconsistent", "cannot tell"


@dataclass(frozen=True, slots=True)
class Outcome:
    outcome: str                # one of the three above
    sentence: str               # in plain words
    numbers: Mapping[str, float] = field(default_factory=dict)
