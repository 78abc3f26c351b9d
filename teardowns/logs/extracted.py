"""What was read out of a log, or why it was not."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Extracted:
    """One number with its place in the log and its working."""

    code: str                 # of engine/quantities.py, or of logs/results.py if no rule reads it
    label: str                # as a page names it
    value: float              # SI
    uncertainty: float        # standard, SI
    unit: str                 # SI
    start: float              # s: the span of the log that it was read from
    end: float                # s
    budget: tuple[tuple[str, float], ...] = ()    # source of error, its standard share [unit]
    working: tuple[str, ...] = ()     # formula and numbers, a sentence each, in order
    conditions: Mapping[str, float] = field(default_factory=dict)
    # of models.Measurement: output_voltage, duration, mains_voltage, ambient, where they are known
    column: int | None = None         # the column of the log, where several could be meant

    def to_json(self) -> dict[str, Any]:
        return {"kind": "number", **asdict(self)}


@dataclass(frozen=True, slots=True)
class Told:
    """A result in words: how the output behaved after its limit, which mode a converter was in."""

    code: str
    label: str
    word: str                 # code of the answer: "hiccup"
    says: str                 # in a sentence
    start: float
    end: float
    working: tuple[str, ...] = ()

    def to_json(self) -> dict[str, Any]:
        return {"kind": "word", **asdict(self)}


@dataclass(frozen=True, slots=True)
class Unread:
    """What this log does not show: said, not guessed."""

    code: str
    label: str
    why: str                  # with the remedy, in the user's words

    def to_json(self) -> dict[str, Any]:
        return {"kind": "unread", **asdict(self)}


Result = Extracted | Told | Unread


GRANTED = "taken for granted."        # how a sentence ends that says what the log cannot show


def taken_for_granted(working: Sequence[str]) -> list[str]:
    """The sentences of a working that a reader of the number alone has to know."""
    return [sentence for sentence in working if sentence.endswith(GRANTED)]


_KINDS = {"number": Extracted, "word": Told, "unread": Unread}


def result_from(stored: Mapping[str, Any]) -> Result:
    """What `to_json` wrote; a recording keeps a name beside it."""
    return _KINDS[stored["kind"]](**{name: value for name, value in stored.items()
                                     if name not in ("kind", "name")})
