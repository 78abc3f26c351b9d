"""What stands between mains and a hand: the answer, the barrier map, and what it rests on."""
from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.safety_words import amount, reading, summary, unrecorded
from teardowns.figures.barrier_map import Span, barrier_map, spoken
from teardowns.models import Situation

from .links import Links, anchor
from .safety_points import Points, assumption_names, points, subject_keys, subject_words

NOT_JUDGED = (
    "The stored assessment is of a rulebook that did not judge safety: whether the insulation of "
    "the unit examined keeps the mains away from a hand, this page cannot tell.",
)
BARRIERS = {
    "PRI_SEC": "Mains side to output: reinforced insulation is required",
    "PRI_ENC": "Mains side to the outside of the case: reinforced insulation is required",
    "L_N": "Line to neutral, ahead of the fuse: basic insulation is required",
    "PRI_PE": "Mains side to protective earth: basic insulation is required",
    "FUNC": "Inside one circuit: this rulebook requires no distance here",
    "": "Inside the transformer, mains-side winding to output winding",
}
CAPTION = (
    "Measured and required distances. Filled block: metal on the mains side; open block: what it "
    "is kept from; thin box above it: ± U, twice the standard uncertainty. Tall stroke: what is "
    "required, a band from the dashed to the solid stroke where the assumptions leave a choice. "
    "Hatched: the distance that is missing. Dotted: nobody measured it, an open question."
)
METHODS = {"caliper": "caliper", "photo_scale": "photo with a scale",
           "photo_part": "photo scaled by a known part"}
UNREAD = {"not_looked": "not looked at", "not_found": "looked for, not found",
          "not_readable": "not readable"}
# Of several paths of one kind across one barrier: why this one is named.
GOVERNS = {"falls short": "misses by the most here", "meets": "leaves the least to spare here",
           "cannot tell": "the nearest to its figure here"}
GRADES = ("falls short", "cannot tell", "meets")


@dataclass(frozen=True, slots=True)
class Assumption:
    anchor: str
    name: str               # "A2"
    text: str
    behind: str             # "behind 3 results"


@dataclass(frozen=True, slots=True)
class InsulationSection:
    sentences: tuple[str, ...]
    barrier_map: SafeString | str       # "" where no path was recorded
    points: Points | None               # None where the stored assessment has none
    assumptions: list[Assumption]
    missing: list[str]      # ways that matter in every unit and that nobody measured
    ungraded: list[tuple[str, str]]     # address and name of recorded paths that no rule grades


def insulation_section(report: dict | None, rows: dict[str, list], links: Links
                       ) -> InsulationSection:
    safety = (report or {}).get("safety")
    paths = {row.ref: row for row in rows["insulationobservation"]}
    if not safety:
        return InsulationSection(NOT_JUDGED, "", None, [], [], _ungraded(paths, []))
    results = safety["results"]
    return InsulationSection(
        sentences=summary(results), barrier_map=_map(results, paths, links),
        points=points(safety, links), assumptions=_assumptions(safety),
        missing=unrecorded(results), ungraded=_ungraded(paths, results),
    )


def _assumptions(safety: dict) -> list[Assumption]:
    names = assumption_names(safety)
    counts = {key: sum(key in one["assumed"] for one in safety["results"]) for key in names}
    return [
        Assumption(f"assumed-{key}", names[key], text,
                   f"behind {counts[key]} result{'' if counts[key] == 1 else 's'}")
        for key, text in safety["assumptions"].items()]


def _ungraded(paths: dict, results: list[dict]) -> list[tuple[str, str]]:
    graded = {one["evidence"][0] for one in results if one["on"] == "path" and one["evidence"]}
    return [(f"#{anchor(ref)}", AsWritten(
        f"{row.place} ({said(row.get_path_display())}, {said(row.get_barrier_display())})"))
            for ref, row in paths.items() if ref not in graded]


def _map(results: list[dict], paths: dict, links: Links) -> SafeString | str:
    """Every graded distance, below the barrier that it crosses, the worst first."""
    keyed = zip(results, subject_keys(results), strict=True)
    drawn = [(one, key) for one, key in keyed
             if one["unit"] == "m" and not one["largest"] and one["on"] in ("path", "adjacency")]
    drawn.sort(key=lambda pair: _badness(pair[0]))
    alike = Counter((one["rule"], one["barrier"]) for one, _ in drawn)
    groups: dict[str, list[Span]] = {}
    for one, key in drawn:
        row = paths.get(one["evidence"][0]) if one["evidence"] and one["on"] == "path" else None
        span = span_of(one, key, row, links)
        is_alone = alike[one["rule"], one["barrier"]] == 1      # nothing to stand out from
        groups.setdefault(one["barrier"], []).append(
            replace(span, remark="") if is_alone and not one["flagged"] else span)
    titled = [(heading, groups[code]) for code, heading in BARRIERS.items() if code in groups]
    return mark_safe(barrier_map(CAPTION, titled)) if titled else ""


def _badness(one: dict) -> tuple[int, float]:
    return GRADES.index(one["grade"]), 1e9 if one["ratio"] is None else one["ratio"]


def span_of(one: dict, key: str, row, links: Links) -> Span:
    """One graded distance as the map draws it. row : of its evidence, or None"""
    asked = one["barrier"] != "FUNC"
    value, u, low, high = (None if one[name] is None else 1e3 * one[name]
                           for name in ("value", "u", "low", "high"))
    span = Span(
        place=said(subject_words(one) or one["title"]), detail=", ".join(_details(one, row)),
        evidence=f"#{anchor(one['evidence'][0])}" if one["evidence"] else "",
        grade=one["grade"], value=value, u=u, low=low if asked else None,
        high=high if asked else None,
        measured=_measured(one, row), required=_required(one) if asked else "",
        remark=_remark(one), working=links.safety(one["rule"], key),
    )
    return told(span)


def told(span: Span) -> Span:
    """With what is told to who cannot see it; the place stands as it is."""
    inside = {name: said(getattr(span, name))
              for name in ("detail", "measured", "required", "grade")}
    return replace(span, spoken=said(spoken(replace(span, **inside))))


def _details(one: dict, row) -> list[str]:
    """The kind of path, its shape, and how it was measured."""
    found = [one["title"].lower() if row is None else row.get_path_display()]
    if row is None:
        return found
    if row.situation != Situation.AS_FOUND:
        found.append(row.get_situation_display())
    found += [row.get_shape_display()] if row.shape else []
    found += ["coated"] if row.coated else []
    return found + ([METHODS[row.method]] if row.state == "recorded" and row.method in METHODS
                    else [])


def _measured(one: dict, row) -> str:
    if one["value"] is not None:
        return reading(one["value"], one["u"] or 0.0, "m")
    if row is not None and row.state != "recorded":
        return UNREAD[row.state]
    return "not measured" if row is None else "no usable value"


def _required(one: dict) -> str:
    ends = [amount(one[name], "m") for name in ("low", "high") if one[name] is not None]
    if len(set(ends)) < 2:
        return "".join(ends[:1])
    return f"{ends[0].split()[0]} to {ends[1]}"


def _remark(one: dict) -> str:
    if one["flagged"]:
        return "flag for a reviewer: a figure from memory"
    return GOVERNS[one["grade"]] if one["governs"] and one["barrier"] != "FUNC" else ""
