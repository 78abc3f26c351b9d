"""Confirmed evidence beside all evidence: each claim, what the unit can deliver, what can hurt."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.marks import verdict_chip
from teardowns.figures.markup import escape
from teardowns.reading.quantity import print_interval

from .numbers import p_equals

NOT_YET = "not known yet"
SAME = "Nothing: confirmed evidence alone gives the same verdicts and findings."


@dataclass(frozen=True, slots=True)
class SideRow:
    name: str
    confirmed: SafeString | str
    everything: SafeString | str
    differs: bool


@dataclass(frozen=True, slots=True)
class Sides:
    rows: list[SideRow]
    changes: list[str]            # what the unconfirmed rows would change, in words


def sides_told(sides: Mapping[str, Any]) -> Sides | None:
    """None where the engine has not spoken yet."""
    if not sides:
        return None
    confirmed, everything = sides["confirmed"], sides["all"]
    claims = {claim["ref"]: claim for claim in confirmed["claims"]}
    rows = [_claim(claim, claims.get(claim["ref"])) for claim in everything["claims"]]
    rows += [_row("Can deliver", *(_capability(side) for side in (confirmed, everything))),
             _row("Gravest finding", *(_level(side) for side in (confirmed, everything)))]
    changes = [*_claims_changed(everything["claims"], claims),
               *_capability_changed(confirmed, everything), *_findings_changed(sides)]
    return Sides(rows, changes or [SAME])


def _row(name, confirmed, everything):
    return SideRow(name, confirmed, everything, confirmed != everything)


def _claim(claim, confirmed):
    return _row(f"“{claim['printed']}”", _verdict(confirmed), _verdict(claim))


def _verdict(claim):
    """The chip with its plausibility; a claim that nobody confirmed has no verdict of its own."""
    if claim is None:
        return "not confirmed as printed"
    p = claim["plausibility"]
    known = p is not None and claim["verdict"] != "no evidence"
    told = f" {escape(p_equals(p))}" if known else ""
    return mark_safe(verdict_chip(claim["verdict"]) + told)


def _capability(side):
    if not side["capability"]:
        return NOT_YET
    low, _, high = side["capability"]
    return print_interval(low, high, "W")


def _level(side):
    return side["level"] or "none"


def _claims_changed(claims, confirmed):
    unread = sum(claim["ref"] not in confirmed for claim in claims)
    if unread:
        yield (f"{unread} claim{' is' if unread == 1 else 's are'} judged only once somebody "
               "confirms that they are printed.")
    for claim in claims:
        before = confirmed.get(claim["ref"])
        if before is not None and before["verdict"] != claim["verdict"]:
            yield (f"“{claim['printed']}”: {before['verdict']} from confirmed evidence, "
                   f"{claim['verdict']} from all.")


def _capability_changed(confirmed, everything):
    before, after = _capability(confirmed), _capability(everything)
    if before != after:
        yield f"What it can deliver: {before} from confirmed evidence, {after} from all."


def _findings_changed(sides):
    before = {one["scenario"]: one for one in sides["confirmed"]["findings"]}
    after = {one["scenario"]: one for one in sides["all"]["findings"]}
    for key, one in after.items():
        if key not in before:
            yield f"A {one['level']} finding would come in: {one['title']}."
        elif before[key]["level"] != one["level"]:
            yield (f"“{one['title']}” would be {one['level']} and is {before[key]['level']} on "
                   "confirmed evidence.")
    for key, one in before.items():
        if key not in after:
            yield f"A {one['level']} finding would go: {one['title']}."
