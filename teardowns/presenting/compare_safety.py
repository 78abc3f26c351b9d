"""Insulation and findings of several units: distances on one axis, then what falls short."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.engine.safety_words import HURTS, summary, unrecorded
from teardowns.figures.barrier_map import Span, barrier_map

from .compare_columns import Cell, Column, Row, cell, link, listed, quiet
from .findings_section import confirmed_words
from .insulation_section import BARRIERS, span_of, told
from .safety_points import subject_keys, title_with_subject, undecided_words

NOT_JUDGED = "its assessment does not judge safety"
CAPTION = (
    "Of each kind of path across a barrier, the one that decides in each unit: measured and "
    "required, on one axis. Filled block: metal on the mains side; open block: what it is kept "
    "from; thin box: ± U. Tall stroke: what is required, a band where the assumptions leave a "
    "choice. Hatched: the distance that is missing. Dotted: nobody measured it."
)


def compared_insulation(columns: Sequence[Column]) -> SafeString | str:
    """The barrier map of all units; "" where none has a graded distance."""
    groups: dict[str, list[tuple[str, str, Span]]] = {}
    for column in columns:
        for one, key in _governing(column):
            groups.setdefault(one["barrier"], []).append(
                (one["title"], column.letter, _span(one, key, column)))
    titled = [(heading, [span for *_, span in sorted(groups[code], key=lambda row: row[:2])])
              for code, heading in BARRIERS.items() if code in groups]
    return mark_safe(barrier_map(CAPTION, titled)) if titled else ""


def _governing(column):
    results = _safety(column).get("results", ())
    return [(one, key) for one, key in zip(results, subject_keys(results), strict=True)
            if one["unit"] == "m" and not one["largest"] and one["on"] in ("path", "adjacency")
            and one["governs"] and one["barrier"] != "FUNC"]


def _span(one, key, column) -> Span:
    paths = {row.ref: row for row in column.compared.rows["insulationobservation"]}
    row = paths.get(one["evidence"][0]) if one["evidence"] and one["on"] == "path" else None
    span = span_of(one, key, row, column.links)
    evidence = column.links.evidence(one["evidence"][0]) if one["evidence"] else ""
    return told(replace(span, place=f"{column.letter}: {span.place}", evidence=evidence, remark=""))


def _safety(column) -> dict:
    return column.report.get("safety") or {}


def compared_findings(columns: Sequence[Column]) -> list[Row]:
    return [
        Row("In short", "", [_each(column, _in_short) for column in columns]),
        Row("Findings", "what the shortfalls can lead to",
            [_each(column, _findings) for column in columns]),
        Row("Falls short", "points that can hurt", [_each(column, _short) for column in columns]),
        Row("Not decided", "or not measured", [_each(column, _open) for column in columns]),
    ]


def _each(column, told) -> Cell:
    safety = _safety(column)
    return cell(column, [told(column, safety)] if safety else [quiet(NOT_JUDGED)])


def _in_short(column, safety):
    return " ".join(summary(safety["results"]))


def _findings(column, safety):
    if not safety["findings"]:
        return quiet("none from what was recorded")
    return listed(_finding(one, column) for one in safety["findings"])


def _finding(one, column):
    title = link(one["title"], f"{column.links.unit}#findings")
    confirmed = column.compared.confirmed.get(one["scenario"], 0)
    remark = f" {said(confirmed_words(confirmed))}" if one["level"] == "serious" else ""
    level = said(f"risk {one['level']}")
    return mark_safe(f"{title}: {level}.{remark}")


def _short(column, safety):
    found = [(one, key) for one, key in
             zip(safety["results"], subject_keys(safety["results"]), strict=True)
             if one["hazard"] in HURTS and one["grade"] == "falls short"]
    if not found:
        return quiet("nothing that was measured")
    return listed(link(title_with_subject(one), column.links.safety(one["rule"], key))
                  for one, key in found)


def _open(column, safety):
    undecided = [one for one in safety["results"]
                 if one["hazard"] in HURTS and one["grade"] == "cannot tell"]
    missing = unrecorded(safety["results"])
    waits = undecided_words(len(undecided), len(missing))
    return link(", ".join(waits), f"{column.links.unit}#insulation")
