"""What a file leaves open: asked, with how a cell of it reads under each answer."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    label: str
    reading: str = ""         # how a cell of this file reads under it: "1.234 → 1 234"


@dataclass(frozen=True, slots=True)
class Question:
    """Something to choose before a log is read.

    field: encoding, separator, decimal, date_order, interval, role:<index> or unit:<index>.
    The answer is the value of a choice; of the interval, any number of seconds.
    """

    field: str
    asks: str
    choices: tuple[Choice, ...]       # the likeliest first: it is proposed meanwhile


def settle(field: str, asks: str, choices: Sequence[Choice], answers: Mapping[str, str],
           ) -> tuple[str, tuple[Question, ...]]:
    """The answered value, or the only one, or the likeliest with its question."""
    values = [choice.value for choice in choices]
    if answers.get(field) in values:
        return answers[field], ()
    if len(values) == 1:
        return values[0], ()
    return values[0], (Question(field, asks, tuple(choices)),)


def spaced(value: float) -> str:
    """1234.5 as "1 234.5"."""
    return f"{value:,.10g}".replace(",", "\u202f")
