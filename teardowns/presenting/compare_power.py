"""Capabilities and lines of evidence of several units on one power axis."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.figures.axes import Axis
from teardowns.figures.compared_capability import Standing, compared_capability
from teardowns.figures.compared_lines import Lane, Line, compared_lines, written_numbers
from teardowns.figures.ladder import Claimed, Rung, ladder_axis
from teardowns.figures.marks import verdict_chip
from teardowns.figures.markup import element, escape
from teardowns.figures.scale_table import linked

from .compare_columns import Column
from .looked_states import looked_states
from .mains import mains_ends, mains_text
from .numbers import THIN, claimed_watts, number, span
from .power_section import TEST_WORDS, capability, power_lines

MOST_LINES = 8          # that a ladder shows
ENDS = {"low": "Lower end of each unit’s rated mains range",
        "high": "Upper end of each unit’s rated mains range"}
WHERE = {"low": "the lower", "high": "the upper"}


@dataclass(frozen=True, slots=True)
class ComparedPower:
    capabilities: SafeString
    ladders: list[tuple[str, SafeString]]       # heading and figure, the low end first
    left_out: int                               # lines that no ladder shows


def compared_power(columns: Sequence[Column]) -> ComparedPower:
    chosen = {end: _heaviest(columns, end) for end in ENDS}
    axis = _axis(columns, chosen)
    every = {line["id"] for column in columns for end in ENDS
             for line in _lines(column, end)}
    shown = {line for lines in chosen.values() for line in lines}
    return ComparedPower(
        mark_safe(_capabilities(axis, columns)),
        [(f"Lines of evidence, {WHERE[end]} end of the mains range",
          mark_safe(_ladder(axis, columns, end, lines)))
         for end, lines in chosen.items() if lines],
        len(every - shown))


def headline(report: dict) -> dict | None:
    """The claim that the verdict of the unit is about."""
    return None if report["headline"] is None else report["claims"][report["headline"]]


def _lines(column, end):
    """Those that have a value at this end; none where the plate rates a single condition."""
    return power_lines(column.report, end) if end in mains_ends(column.report) else []


def _heaviest(columns, end) -> list[str]:
    """Ids of the lines that weigh most on the claims, among those that speak at this end."""
    weight = {line["id"]: 0.0 for column in columns for line in _lines(column, end)}
    for column in columns:
        for one in (headline(column.report) or {"weights": ()})["weights"]:
            if one["line"] in weight:
                weight[one["line"]] = max(weight[one["line"]], abs(one["decibans"]))
    return sorted(weight, key=lambda line: (-weight[line], line))[:MOST_LINES]


def _axis(columns, chosen) -> Axis:
    """One axis for all that the page draws in watts."""
    rungs = [Rung("", "", "", at["value"], at["low"], at["high"], "", "")
             for column in columns for end in ENDS for line in _lines(column, end)
             if line["id"] in chosen[end] for at in (line["ends"][end],)]
    claims = [claim["power"] for column in columns
              if (claim := headline(column.report)) and claim["power"]]
    found = [capability(column.report, end) for column in columns for end in ENDS]
    return ladder_axis(rungs, claims, [one for one in found if one])


def _capabilities(axis, columns) -> str:
    caption = (f"Continuous output power that the evidence leaves plausible, 90{THIN}% interval; "
               "ring: the middle. Logarithmic axis in watts, the same for every unit. Tall "
               "stroke: what the unit claims.")
    groups = [(heading, [_standing(column, end) for column in columns
                         if end in mains_ends(column.report)]) for end, heading in ENDS.items()]
    return compared_capability(caption, axis, [group for group in groups if group[1]])


def _standing(column, end) -> Standing:
    report = column.report
    found, claim = report["capability"][end], headline(report)
    at = mains_text(report, end)
    chip = verdict_chip(claim["verdict"]) if claim else element("small", "no power claim")
    return Standing(
        name=column.name + element("small", escape(f"at {at}")) + chip,
        spoken=(f"{column.letter}, {column.title}, {said(f'at {at}')}: "
                f"{said(_spoken(found, claim))}"),
        capability=capability(report, end), claim=_claimed(claim),
        numbers=_numbers(column, found, claim))


def _claimed(claim):
    return Claimed(claim["power"], f"claimed {claimed_watts(claim['power'])}") if claim else None


def _numbers(column, found, claim):
    if found is None:
        return "cannot tell" + element("small", "no line of evidence")
    href = f"{column.links.claim(claim['ref'])}#capability" if claim else column.links.unit
    return linked(number(found["median"]), href) + element(
        "small", escape(span(found["low"], found["high"])))


def _spoken(found, claim):
    capable = "cannot tell" if found is None else (
        f"capability {number(found['median'])} W, 90 % interval "
        f"{span(found['low'], found['high'])} W")
    return f"{capable}, claimed {claimed_watts(claim['power'])}" if claim else capable


def _ladder(axis, columns, end, lines) -> str:
    caption = (f"The {len(lines)} lines of evidence that weigh most on the claims, at {WHERE[end]} "
               "end of each unit’s rated mains range. A lane for each unit, its claim the upright "
               "stroke; dotted: the line has no value in that unit.")
    known = {(column.letter, line["id"]): line for column in columns
             for line in _lines(column, end)}
    drawn = [_line(line_id, end, columns, known) for line_id in lines]
    return compared_lines(caption, axis, drawn, len(columns))


def _line(line_id, end, columns, known) -> Line:
    first = next(line for (_, name), line in known.items() if name == line_id)
    lanes = [_lane(column, known.get((column.letter, line_id)), line_id, end) for column in columns]
    spoken = "; ".join(f"{lane.letter} {said(written_numbers(lane))}" for lane in lanes)
    return Line(first["kind"], first["title"], lanes, f"{said(first['kind'])}: {spoken}")


def _lane(column, line, line_id, end) -> Lane:
    claim = headline(column.report)
    power = claim["power"] if claim else None
    if line is None:
        return Lane(column.letter, power, _why_not(column, line_id, end))
    at = line["ends"][end]
    return Lane(
        column.letter, power, TEST_WORDS.get(line["kind"], "{}").format(number(at["value"])),
        at["value"], at["low"], at["high"], span(at["low"], at["high"]),
        column.links.working(line_id, end))


def _why_not(column, line_id, end) -> str:
    """ "not readable", "not recorded", "says nothing here", "rated for one mains condition" """
    report = column.report
    if end not in mains_ends(report):
        return "rated for one mains condition"
    if any(line["id"] == line_id for line in report["lines"]):
        return "says nothing here"
    reads = next((line["reads"] for line in report["unmeasured"] if line["id"] == line_id), [])
    states = looked_states(column.compared.counted("measurement"),
                           column.compared.counted("component"))
    found = list(dict.fromkeys(states.get(code, "not recorded") for code in reads))
    return ", ".join(found) or "not recorded"
