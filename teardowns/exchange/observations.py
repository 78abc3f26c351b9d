"""What each row of a document observes: quantities by their code, gathered from all nouns.

A row speaks only when it is recorded and counts. What was measured by itself is not read off a
marking or a layer a second time: one fact stays one.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import nan
from typing import Any

from teardowns.engine.conditions import PER_PORT
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.document import counts, is_sellers_word, witnesses
from teardowns.exchange.observing.claims import of_claims
from teardowns.exchange.observing.components import of_components
from teardowns.exchange.observing.cores import of_cores
from teardowns.exchange.observing.observation import (
    ALL,
    Observation,
    Row,
    is_recorded,
    standard_uncertainty,
)
from teardowns.exchange.observing.ports import of_ports
from teardowns.exchange.observing.stack import of_stack

# What a seller may well say of a unit: how large and how heavy it is. All else, a load held or a
# test withstood, is what the evidence is there to show.
SELLERS_WORD = {"mass_total", "case_height", "case_width", "case_depth"}
# Where an instrument showed no value but a side of a limit: what that observes, of the
# quantities that a rule can use a limit of.
SIDES = {"above": "_at_least", "at_least": "_at_least", "below": "_at_most", "at_most": "_at_most"}
STRENGTH = "electric_strength_withstood"      # how long it was held stands beside it

__all__ = ["Observation", "is_recorded", "observations", "ports_of"]


def observations(document: Mapping[str, Any], confirmed_only: bool = False) -> list[Observation]:
    """All observations of a full document, in an order that depends on nothing but it."""
    def speaking(name, takes_part=counts):
        return [row for row in document[name] if takes_part(row, confirmed_only)]

    several = len(ports_of(document)) > 1
    components = document["components"] if several else _of_the_unit(document["components"])
    measured = list(_measured(speaking("measurements")))
    read = [
        *of_claims(speaking("claims"), document["printed_texts"]),
        *of_ports(speaking("ports", witnesses)),
        *_not_of_one_port(of_components(components, document["parts"], confirmed_only)),
        *of_cores(speaking("components", witnesses)),
        *of_stack(document["stack"], confirmed_only),
    ]
    found = [_photographed(document["unit"]), *measured, *_not_measured(read, measured)]
    return [seen for seen in found if _can_exist(seen)]


def ports_of(document: Mapping[str, Any]) -> list[Row]:
    """The ports that a unit has, in the order of their numbers: disputed ones are there too."""
    return [row for row in document["ports"] if row["state"] != "not_found"]


def _can_exist(seen):
    quantity = QUANTITIES[seen.code]
    return quantity.low <= seen.value <= quantity.high


def _photographed(unit):
    """None stated is none: a part that nobody found may then well have been missed."""
    return Observation("photographed_sides", float(unit["photographed_sides"]), 0.0,
                       ("unit/photographed_sides",))


def _measured(rows: Sequence[Row]) -> Iterator[Observation]:
    for row in rows:
        code, ref = row["quantity"], (f"measurement/{row['key']}",)
        port = ALL if row["all_ports"] else row.get("port", "")
        if is_sellers_word(row) and code not in SELLERS_WORD:
            continue
        if is_recorded(row):
            yield Observation(code, row["value"], standard_uncertainty(code, row), ref,
                              row.get("mains_voltage", nan), row.get("output_voltage", nan), port,
                              _scaled_photo(row))
            if code == STRENGTH and "duration" in row:
                yield Observation("electric_strength_duration", row["duration"], 0.0, ref)
        elif row["state"] == "not_found" and QUANTITIES[code].is_flag:
            yield Observation(code, 0.0, 0.0, ref, port=port)
        elif "bound" in row and (limit := code + SIDES[row["bound_kind"]]) in QUANTITIES:
            yield Observation(limit, row["bound"], 0.0, ref)


def _scaled_photo(row):
    """The photo that a length was read from: cited, and no other instrument named."""
    is_length = QUANTITIES[row["quantity"]].unit == "m"
    is_read_there = not row["instrument"] or "photo" in row["instrument"].casefold()
    return row.get("photo", "") if is_length and is_read_there else ""


def _of_the_unit(components):
    """With a single port, what serves it serves the unit."""
    return [{name: value for name, value in row.items() if name != "port"} for row in components]


def _not_of_one_port(found):
    """Without what a part of one port says, where it would be taken for the whole unit."""
    return [seen for seen in found if not seen.port or seen.code in PER_PORT]


def _not_measured(read, measured):
    """Without what a measurement states by itself; flags and extremes have several witnesses."""
    stated = {seen.code for seen in measured if QUANTITIES[seen.code].pooling == "mean"}
    return [seen for seen in read if seen.code not in stated]
