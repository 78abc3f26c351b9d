"""One result about safety as a page prints it: what, how bad, how sure, on what ground."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.safety_words import CONFIDENCE_WORDS, HURTS
from teardowns.figures.marks import grade_mark

from .links import Links
from .numbers import THIN, plausibility

NO_EVIDENCE = "nothing was recorded"


@dataclass(frozen=True, slots=True)
class Point:
    title: str
    subject: str
    evidence: str           # address of its first row of evidence, or ""
    mark: SafeString
    hazard: str             # "electric shock", or "marking, no hazard"
    sentence: str
    share: str              # "61 % of what is required", or ""
    chance: str             # that it falls short, or ""
    confidence: str
    assumed: list[tuple[str, str]]      # address and name: "A2", "A4 to A7"
    asks: list[str]                     # what would settle it
    working: str                        # address


@dataclass(frozen=True, slots=True)
class Points:
    """The results in the order in which they need reading."""

    short: list[Point]
    flagged: list[Point]
    open: list[Point]
    meets: list[Point]
    harmless: list[Point]               # marking, energy use, interference


def subject_keys(results: Sequence[dict]) -> list[str]:
    """What names the subject of each result within its rule: the key of its row of evidence, its
    number where no single row stands behind it, "" where it is the unit."""
    counted: dict[str, int] = {}
    keys = []
    for one in results:
        counted[one["rule"]] = counted.get(one["rule"], 0) + 1
        own = one["on"] in ("path", "part") and one["evidence"]
        number = "" if one["on"] == "unit" else str(counted[one["rule"]])
        keys.append(own[0].partition("/")[2] if own else number)
    return keys


def assumption_names(safety: dict) -> dict[str, str]:
    """By key: A1, A2, … in the order of the report."""
    return {name: f"A{number}" for number, name in enumerate(safety["assumptions"], start=1)}


def subject_words(one: dict) -> str:
    """What a result is about. A place is named by who recorded it, a part by its sign."""
    if one["on"] == "path":
        return AsWritten(one["subject"])
    role, _, sign = one["subject"].rpartition(" ")
    if one["on"] == "part" and role and any(letter.isdigit() for letter in sign):
        return AsWritten(f"{said(role)} {sign}")
    return one["subject"]


def title_with_subject(one: dict) -> str:
    """`Clearance: slot beside the USB pads`."""
    if not one["subject"]:
        return one["title"]
    return AsWritten(f"{said(one['title'])}: {said(subject_words(one))}")


def points(safety: dict, links: Links) -> Points:
    named = assumption_names(safety)
    made = [(one, _point(one, key, named, links)) for one, key in
            zip(safety["results"], subject_keys(safety["results"]), strict=True)]
    made.sort(key=lambda pair: 1.0 if pair[0]["ratio"] is None else pair[0]["ratio"])

    def those(grade, flagged=False):
        return [point for one, point in made if one["hazard"] in HURTS
                and (one["grade"], one["flagged"]) == (grade, flagged)]

    return Points(
        short=those("falls short"), flagged=those("cannot tell", flagged=True),
        open=those("cannot tell"), meets=those("meets"),
        harmless=[point for one, point in made if one["hazard"] not in HURTS])


def undecided_words(undecided: int, missing: int) -> list[str]:
    """missing : ways that matter in every unit and that nobody recorded"""
    found = [f"{undecided} open"] if undecided or not missing else []
    return found + ([f"{missing} not recorded"] if missing else [])


def _point(one: dict, key: str, named: dict[str, str], links: Links) -> Point:
    return Point(
        title=one["title"], subject=subject_words(one),
        evidence=links.evidence(one["evidence"][0]) if one["subject"] and one["evidence"] else "",
        mark=mark_safe(grade_mark(one["grade"])), hazard=one["hazard_words"],
        sentence=one["sentence"], share=share(one), chance=chance(one),
        confidence=confidence(one), asks=one.get("asks", []),
        assumed=assumed_names(one["assumed"], named),
        working=links.safety(one["rule"], key),
    )


def assumed_names(keys: Sequence[str], named: dict[str, str]) -> list[tuple[str, str]]:
    """Address and name of each assumption; three or more in a row as one: "A4 to A7"."""
    order = list(named)
    runs: list[list[int]] = []
    for place in sorted(order.index(key) for key in keys):
        if runs and runs[-1][-1] == place - 1:
            runs[-1].append(place)
        else:
            runs.append([place])
    return [pair for run in runs for pair in _run(run, order, named)]


def _run(run, order, named):
    if len(run) < 3:
        return [(f"#assumed-{order[place]}", named[order[place]]) for place in run]
    first, last = order[run[0]], order[run[-1]]
    return [(f"#assumed-{first}", f"{named[first]} to {named[last]}")]


def confidence(one: dict) -> str:
    """How well the figure is known; "" where no figure was compared."""
    return CONFIDENCE_WORDS[one["confidence"]] if one["low"] is not None else ""


def share(one: dict) -> str:
    """How much of the requirement was found: how bad it is, or how much is to spare."""
    if one["ratio"] is None or one["low"] is None or one["why"]:
        return ""       # a reason stands in place of the comparison
    found = f"{100 * one['ratio']:.0f}{THIN}%"
    return (f"{found} of the highest allowed value" if one["largest"]
            else f"{found} of what is required")


def chance(one: dict) -> str:
    """How sure: the chance of a shortfall under lenient and under demanding assumptions."""
    if one["value"] is None or not one["u"] or None in one["shortfall"] or one["why"]:
        return ""
    ends = list(dict.fromkeys(plausibility(p) for p in one["shortfall"]))
    verb = "exceeds it" if one["largest"] else "falls short"
    return f"chance that it {verb}, by the scatter of the reading: {' to '.join(ends)}"
