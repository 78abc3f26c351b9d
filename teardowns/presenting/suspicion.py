"""Which reading behind a contradiction is most likely wrong, in a sentence and as rows."""
from __future__ import annotations

from dataclasses import dataclass

from .numbers import number, with_unit

ALIKE = 0.8             # a share of the first's from which on two suspects are told as equals


@dataclass(frozen=True, slots=True)
class SuspectRow:
    text: str
    way: str                # "2.4 times as much, 13 standard uncertainties away"
    share: str              # "71 %"


def suspicion(claim: dict) -> str:
    """The sentence under a contradiction; "" where nothing contradicts."""
    found = claim.get("suspects") or []
    if not found:
        return ""
    first = [one for one in found if one["share"] >= ALIKE * found[0]["share"]]
    rest = found[len(first):]
    names = _or(one["text"] for one in first)
    opening = ("Most likely wrong" if len(first) == 1 else "As likely the one wrong as the other")
    others = f" Less likely: {_or(one['text'] for one in rest)}." if rest else ""
    return f"{opening}: {names}.{others}"


def suspect_rows(claim: dict) -> list[SuspectRow]:
    return [SuspectRow(one["text"], _way(one), with_unit(f"{100 * one['share']:.0f}", "%"))
            for one in claim.get("suspects") or []]


def _way(one):
    if one["factor"] is None:
        return "the opposite finding"
    times = f"{number(one['factor'], 2)} times the value"
    if one["sigmas"] is None:
        return f"{times}, entered as exact"
    return f"{times}, {number(one['sigmas'], 2)} standard uncertainties away"


def _or(parts) -> str:
    *others, last = parts
    return f"{', '.join(others)} or {last}" if others else last
