"""How much of what a reviewer asks for a document answers.

To have looked in vain is an answer. What is said of the care taken is not asked here: the bench
sheet's list (`presenting/completeness.py`) has it besides, and the same things in other words.
"""
from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

Document = Mapping[str, Any]
ANSWERS = frozenset({"recorded", "not_found", "not_readable"})
LOADS = ("sustained_power", "failed_power", "peak_power")
CASE = ("case_height", "case_width", "case_depth")
INSIDE = ("opened", "component_side", "solder_side")
SIDES = ("component_side", "solder_side")
KEY_PARTS = (("bulk_capacitor",), ("primary_controller",), ("core", "transformer"),
             ("optocoupler",), ("barrier_capacitor",))
DISTANCES = ("clearance", "creepage")


def answered_share(document: Document) -> float:
    """Things answered over things asked, 0 to 1."""
    answers = [answer for ask in ASKS for answer in ask(document)]
    return sum(answers) / len(answers)


def _said(rows: Iterable[Mapping[str, Any]]) -> bool:
    return any(row["state"] in ANSWERS for row in rows)


def _of(document, name, field, *values):
    return [row for row in document[name] if row[field] in values]


def _origin(document):
    yield document["unit"]["channel"] != "unknown"


def _photos(document):
    stages = {photo["stage"] for photo in document["photos"]}
    yield bool(stages)
    if "plate" in stages or not _has_no_plate(document):
        yield "plate" in stages
    yield not stages.isdisjoint(INSIDE) or any(
        row["state"] == "recorded" for row in document["components"])
    yield stages.issuperset(SIDES)


def _plate(document):
    yield _said(_of(document, "printed_texts", "source", "plate"))
    claims = document["claims"]
    yield _said(claims) or (not claims and _has_no_plate(document))


def _has_no_plate(document):
    states = {row["state"] for row in _of(document, "printed_texts", "source", "plate")}
    return "not_found" in states and states.isdisjoint({"recorded", "not_readable"})


def _outside(document):
    yield _said(_of(document, "measurements", "quantity", "mass_total"))
    yield all(_said(_of(document, "measurements", "quantity", code)) for code in CASE)
    yield _said(document["ports"])


def _inside(document):
    for roles in KEY_PARTS:
        yield _said(_of(document, "components", "role", *roles))


def _barrier(document):
    across = _of(document, "insulation", "barrier", "PRI_SEC")
    for path in DISTANCES:
        yield _said(row for row in across if row["path"] == path)


def _loads(document):
    loads = _of(document, "measurements", "quantity", *LOADS)
    yield _said(loads)
    recorded = [row for row in loads if row["state"] == "recorded"]
    if recorded:
        yield all("mains_voltage" in row for row in recorded)


ASKS: tuple[Callable[[Document], Iterable[bool]], ...] = (
    _origin, _photos, _plate, _outside, _inside, _barrier, _loads)
