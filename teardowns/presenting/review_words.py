"""What reviewers said and what rests on a row, as sentences of the review's page."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from core.words.as_written import AsWritten
from core.words.said import said as say
from teardowns.engine.quantities import QUANTITIES
from teardowns.models import InsulationObservation, Measurement
from teardowns.reading.quantity import print_quantity

from .numbers import number

MOST_RESTING = 4
NOTHING_RESTS = "Nothing that was computed rests on it."
SPOKE = {"confirmed": "confirmed it", "disputed": "disputed it", "remeasured": "measured it anew"}
AGREES = {True: "agrees with the first", False: "does not agree with the first",
          None: "whether it agrees cannot be told without both uncertainties"}


def unit_of(row: Any) -> str:
    """The SI unit of the one number that a row holds."""
    if isinstance(row, InsulationObservation):
        return "m"
    quantity = QUANTITIES.get(row.quantity) if isinstance(row, Measurement) else None
    return quantity.unit if quantity else "1"


def word_told(said: Any, row: Any, who: str = "") -> str:
    """ "rolf measured it anew: 51.4 ± 1.0 g, agrees with the first. Kitchen scale" """
    word = said.word
    told = f"{who or said.name} {SPOKE[word.decision]}"
    if said.second_value is not None:
        told += f": {reading_told(said.second_value, said.second_uncertainty, row)}"
        told += f", {AGREES[word.agrees]}"
    return AsWritten(f"{say(f'{told}.')} {word.reason}") if word.reason else f"{told}."


def reading_told(value: float, uncertainty: float | None, row: Any) -> str:
    """With its 95 % interval, where one was stated."""
    spread = None if uncertainty is None else 2 * uncertainty
    return print_quantity(value, unit_of(row), uncertainty=spread)


def rests_told(entries: Sequence[Mapping[str, Any]]) -> list[str]:
    """What rests on a row, the gravest first; one sentence where nothing does."""
    if not entries:
        return [NOTHING_RESTS]
    told = [_rest_told(entry) for entry in entries[:MOST_RESTING]]
    more = len(entries) - MOST_RESTING
    return [*told, f"and {more} more"] if more > 0 else told


def _rest_told(entry):
    if entry["kind"] == "finding":
        return f"A {entry['level']} finding: {entry['title']}"
    if entry["kind"] == "claim":
        return f"Its own verdict: {entry['verdict']}"
    if entry["kind"] == "claims":
        return f"{entry['count']} printed claim{'s' if entry['count'] != 1 else ''}"
    if entry["kind"] == "line":
        side = "for" if entry["decibans"] > 0 else "against"
        return (f"{entry['title']}, which speaks {side} “{entry['claim']}” with "
                f"{number(abs(entry['decibans']), 2)}\u202fdB")
    on = f", {entry['on']}" if entry["on"] else ""
    return f"{entry['title']}{on}: {entry['grade']}"


def progress_told(decided: int, asked: int) -> str:
    if not asked:
        return "Nothing is asked of you here"
    return f"{decided} of {asked} decided"


def others_told(said: Iterable[Any], row: Any) -> list[str]:
    return [word_told(each, row) for each in said]
