"""The transformer's windings: turns in series, copper in parallel."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt

from teardowns.engine.evidence import assumed_uncertainty
from teardowns.exchange.document import witnesses
from teardowns.exchange.observing.observation import (
    Observation,
    Row,
    is_recorded,
    may_be_there,
    refs_of,
)

TURNS = {"primary": "primary_turns", "secondary": "secondary_turns",
         "auxiliary": "auxiliary_turns"}
WIRE = {"primary": ("primary_wire_diameter", "primary_strands"),
        "secondary": ("secondary_wire_diameter", "secondary_strands")}
CALLIPER = 1e-5             # m, k = 1, of a wire's diameter


def of_stack(stack: Sequence[Row], confirmed_only: bool) -> Iterator[Observation]:
    """Each winding over all layers that carry it; one that is unread leaves the sum unknown."""
    for winding in TURNS:
        rows = may_be_there(row for row in stack if row["winding"] == winding)
        if rows and all(is_recorded(row) and witnesses(row, confirmed_only) for row in rows):
            groups = _in_series(sorted(rows, key=lambda row: row["position"]))
            yield from _turns(TURNS[winding], groups)
            yield from _wire(winding, groups)


def _in_series(rows):
    """Layers in parallel with each other, group after group in series."""
    groups: list[list[Row]] = []
    for row in rows:
        if row["in_parallel"] and groups:
            groups[-1].append(row)
        else:
            groups.append([row])
    return groups


def _turns(code, groups):
    """Of each group the layer that states its turns first: those beside it have as many."""
    found = [next((row for row in group if row.get("turns")), None) for group in groups]
    stated = [row for row in found if row is not None]
    if len(stated) == len(groups):
        u = sum(assumed_uncertainty(code, row["how"], row["turns"]) for row in stated)
        yield Observation(code, sum(row["turns"] for row in stated), u,
                          refs_of("stacklayer", stated))


def _wire(winding, groups):
    """Of the group with the least copper, for the same current flows through all of them."""
    rows = [row for group in groups for row in group]
    if winding not in WIRE or not all(row.get("bare_diameter") for row in rows):
        return
    if not all(row.get("strands") for row in rows):
        yield from _plain_wire(WIRE[winding][0], rows)
        return
    weakest = min(groups, key=_copper)
    strands = sum(row["strands"] for row in weakest)
    refs, (diameter_code, strands_code) = refs_of("stacklayer", weakest), WIRE[winding]
    yield _diameter(diameter_code, sqrt(_copper(weakest) / strands), weakest[0], refs)
    yield Observation(strands_code, float(strands), 0.0, refs)


def _copper(group):
    """Copper area of layers in parallel, in units of π/4. [m²]"""
    return sum(row["strands"] * row["bare_diameter"] ** 2 for row in group)


def _plain_wire(code, rows):
    """Strands were not counted: the diameter alone, where all layers have the same."""
    if len({row["bare_diameter"] for row in rows}) == 1:
        yield _diameter(code, rows[0]["bare_diameter"], rows[0], refs_of("stacklayer", rows))


def _diameter(code, value, row, refs):
    u = max(assumed_uncertainty(code, row["how"], value), CALLIPER)
    return Observation(code, value, u, refs, photo=row.get("photo", ""))
