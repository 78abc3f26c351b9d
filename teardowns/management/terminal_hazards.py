"""What stands between mains and a hand, on a terminal: the answer, the distances, the rest."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from textwrap import wrap
from typing import Any

from teardowns.engine.risk import ILLUSTRATION
from teardowns.engine.safety_words import HURTS, amount, reading, summary
from teardowns.management.terminal_figures import cell

BARRIER, PLACE = 10, 26
ACROSS = {"PRI_SEC": "to output", "PRI_ENC": "to case", "L_N": "L to N", "PRI_PE": "to earth",
          "FUNC": "inside"}
MARKS = {"falls short": "✕", "cannot tell": "?", "meets": "✓"}
NONE_DRAWN = "No distance across a barrier was recorded."


def hazards(safety: Mapping[str, Any], width: int) -> Iterator[str]:
    """Lines of at most `width` characters."""
    results = safety["results"]
    yield from wrap(" ".join(summary(results)), width)
    yield ""
    yield from _distances(results, width)
    for heading, found in _groups(results):
        if found:
            yield ""
            yield from (line for one in found for line in wrap(
                f"{heading}: {one['sentence']}", width, subsequent_indent="  "))
    yield from _without_sentence(results, width)
    yield from _scenarios(safety, width)


def _distances(results, width) -> Iterator[str]:
    """Each path with what was measured and what is required, the worst first."""
    paths = [one for one in results if one["on"] == "path" and one["unit"] == "m"]
    if not paths:
        yield from wrap(NONE_DRAWN, width)
        return
    yield f"{cell('mains', BARRIER)}{cell('path', PLACE)}{'measured':>14}{'required':>11}"
    order = {"falls short": 0, "cannot tell": 1, "meets": 2}
    for one in sorted(paths, key=lambda one: (order[one["grade"]], one["ratio"] or 0.0)):
        place = _on_one_line(one["subject"]) or one["title"]
        path = f"{cell(ACROSS[one['barrier']], BARRIER)}{cell(place, PLACE - 1)} "
        yield f"{path}{_measured(one):>14}{_required(one):>11}  {MARKS[one['grade']]}"
    yield "✕ falls short  ? cannot tell, an open question  ✓ meets"


def _measured(one):
    if one["value"] is None:
        return "not known"
    return reading(one["value"], one["u"] or 0.0, "m")


def _required(one):
    ends = [amount(one[end], "m").split()[0] for end in ("low", "high") if one[end] is not None]
    return f"{'–'.join(dict.fromkeys(ends))} mm" if ends else ""


def _groups(results):
    """What is said in full: what falls short, and what a reviewer should look at."""
    hurting = [one for one in results if one["hazard"] in HURTS]
    return (("falls short", [one for one in hurting if one["grade"] == "falls short"]),
            ("flag", [one for one in hurting if one["flagged"]]),
            ("no hazard", [one for one in results if one["hazard"] not in HURTS
                           and one["grade"] == "falls short"]))


def _without_sentence(results, width) -> Iterator[str]:
    """The other points by name; a path has its line above."""
    for grade, words in (("cannot tell", "not decided, open"), ("meets", "meets")):
        names = dict.fromkeys(
            one["title"] + (f" ({_on_one_line(one['subject'])})" if one["subject"] else "")
            for one in results
            if one["grade"] == grade and not one["flagged"] and one["on"] != "path")
        if names:
            yield ""
            yield from wrap(f"{words}: {', '.join(names)}", width, subsequent_indent="  ")


def _scenarios(safety, width) -> Iterator[str]:
    """Each finding with its scenario: no level is printed without one."""
    for one in safety["findings"]:
        yield ""
        steps = "; ".join(f"{step['text']} {step['p']}" for step in one["steps"])
        yield from wrap(f"risk {one['level']}: {_on_one_line(one['title'])}, {one['injury']}. "
                        f"Steps: {steps}; together {one['p']}, {one['band_words']}.",
                        width, subsequent_indent="  ")
    if safety["findings"]:
        yield from wrap(ILLUSTRATION, width)


def _on_one_line(text: str) -> str:
    """Words of a document, without what could steer a terminal."""
    return "".join(char if char.isprintable() else "\ufffd" for char in " ".join(text.split()))
