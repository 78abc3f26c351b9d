"""What each row of a document observes: quantities by their code.

A row speaks only when it is recorded and counts. A sum over rows (bulk capacitance, turns) needs
all of them: one that is disputed, unread or without its number leaves the sum unknown, for a sum
with a part missing would be too small and accuse the unit of what nobody saw.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import nan, sqrt
from typing import Any

from teardowns.engine.evidence import assumed_uncertainty
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.document import counts

Row = Mapping[str, Any]
# What a stated ± means as a standard uncertainty; JCGM 100:2008, 4.3.4 (interval, k = 2) and 4.3.7.
DIVISOR = {"standard": 1.0, "interval": 2.0, "tolerance": sqrt(3.0)}
USUAL_TOLERANCE = 0.2       # ±20 %, of an electrolytic capacitor; common practice, no source
PRESENCE = {                # role of a component → the flag that it raises
    "optocoupler": "isolated_feedback", "protocol_controller": "protocol_controller",
    "port_converter": "port_converter", "pass_switch": "bus_switch",
}
RATED_VOLTAGE = {"bulk_capacitor": "bulk_capacitor_rating",
                 "output_capacitor": "output_capacitor_rating"}
PART_LIMITS = {"primary_controller": ("controller_power_wide", "controller_power_high")}
TURNS = {"primary": "primary_turns", "secondary": "secondary_turns",
         "auxiliary": "auxiliary_turns"}
BRIDGE = 4                  # as many mains diodes rectify both half-waves


@dataclass(frozen=True, slots=True)
class Observation:
    """One value of one quantity, and the rows of evidence that it rests on."""

    code: str
    value: float                        # SI
    u: float                            # standard uncertainty, same unit
    refs: tuple[str, ...]
    mains_voltage: float = nan          # V rms, NaN = not stated
    output_voltage: float = nan         # V, NaN = not stated


def observations(document: Mapping[str, Any], confirmed_only: bool = False) -> list[Observation]:
    """All observations of a full document, in an order that depends on nothing but it."""
    def speaking(name):
        return [row for row in document[name] if counts(row, confirmed_only)]

    found = [
        _photographed(document["unit"]),
        *_measured(speaking("measurements")),
        *_rated_input(speaking("claims"), document["printed_texts"]),
        *_of_components(speaking("components"), document["parts"]),
        *_marked_capacitance(document["components"], confirmed_only),
        *_turns(document["stack"], confirmed_only),
    ]
    return [seen for seen in found if _can_exist(seen)]


def _can_exist(seen):
    quantity = QUANTITIES[seen.code]
    return quantity.low <= seen.value <= quantity.high


def is_recorded(row: Row) -> bool:
    return row["state"] == "recorded"


def standard_uncertainty(code: str, row: Row) -> float:
    """Of a row with a value; as stated, else as the rulebook assumes."""
    if "uncertainty" in row and row["uncertainty_kind"]:
        return row["uncertainty"] / DIVISOR[row["uncertainty_kind"]]
    return assumed_uncertainty(code, row["how"], row["value"])


def _photographed(unit):
    """None stated is none: a part that nobody found may then well have been missed."""
    return Observation("photographed_sides", float(unit["photographed_sides"]), 0.0,
                       ("unit/photographed_sides",))


def _measured(rows) -> Iterator[Observation]:
    for row in rows:
        code, ref = row["quantity"], (f"measurement/{row['key']}",)
        if is_recorded(row):
            yield Observation(code, row["value"], standard_uncertainty(code, row), ref,
                              row.get("mains_voltage", nan), row.get("output_voltage", nan))
        elif row["state"] == "not_found" and QUANTITIES[code].is_flag:
            yield Observation(code, 0.0, 0.0, ref)


def _rated_input(claims, printed_texts) -> Iterator[Observation]:
    """The rated input: the widest that the plate prints; of other texts only without a plate."""
    source = {row["key"]: row["source"] for row in printed_texts}
    inputs = [row for row in claims if row["kind"] == "input" and is_recorded(row)]
    plate = [row for row in inputs if source.get(row.get("printed_text"), "plate") == "plate"]
    for code, fields, widest in (
        ("rated_voltage_low", ("voltage_low", "voltage_high"), min),
        ("rated_voltage_high", ("voltage_high", "voltage_low"), max),
        ("rated_frequency", ("frequency_low", "frequency_high"), min),
        ("rated_input_current", ("current",), max),
    ):
        printed = [(row.get(fields[0], row.get(fields[-1])), row) for row in plate or inputs]
        printed = [pair for pair in printed if pair[0] is not None]
        if printed:
            value, row = widest(printed, key=lambda pair: pair[0])
            # Exact: these are the conditions that the claims are judged at, not readings.
            yield Observation(code, value, 0.0, (f"claim/{row['key']}",))


def _noted(code, value, row, ref, how=None):
    return Observation(code, value, assumed_uncertainty(code, how or row["how"], value), (ref,))


def _of_components(rows, parts) -> Iterator[Observation]:
    limits = {part["marking"]: part["limits"] for part in parts}
    for row in rows:
        ref = f"component/{row['key']}"
        if row["role"] in PRESENCE and row["state"] in ("recorded", "not_found"):
            yield Observation(PRESENCE[row["role"]], float(is_recorded(row)), 0.0, (ref,))
        if not is_recorded(row):
            continue
        if row["role"] in RATED_VOLTAGE and row.get("rated_voltage"):
            yield _noted(RATED_VOLTAGE[row["role"]], row["rated_voltage"], row, ref)
        for limit in limits.get(row.get("part"), ()):
            if limit["quantity"] in PART_LIMITS.get(row["role"], ()):
                yield _noted(limit["quantity"], limit["value"], row, ref, how="data_sheet")
    yield from _full_wave(rows)


def _full_wave(rows):
    """Four mains diodes are a bridge; fewer parts may be one too, in one body: no word on that."""
    diodes = [row for row in rows if row["role"] == "rectifier" and is_recorded(row)]
    if sum(row["count"] for row in diodes) >= BRIDGE:
        yield Observation("rectifier_full_wave", 1.0, 0.0, _refs("component", diodes))


def _refs(noun, rows):
    return tuple(f"{noun}/{row['key']}" for row in rows)


def _marked_capacitance(components, confirmed_only) -> Iterator[Observation]:
    """The sum over the bulk capacitors; tolerances add, as capacitors of one batch err alike."""
    rows = [row for row in components
            if row["role"] == "bulk_capacitor" and row["state"] != "not_found"]
    if rows and all(_has(row, "nominal", confirmed_only) for row in rows):
        value = sum(row["nominal"] * row["count"] for row in rows)
        half = sum(row["nominal"] * row["count"] * row.get("tolerance", USUAL_TOLERANCE)
                   for row in rows)
        yield Observation("bulk_capacitance_marked", value, half / DIVISOR["tolerance"],
                          _refs("component", rows))


def _has(row, field, confirmed_only):
    return is_recorded(row) and counts(row, confirmed_only) and bool(row.get(field))


def _turns(stack, confirmed_only) -> Iterator[Observation]:
    """Turns of each winding over all layers that carry it, counted in series."""
    for winding, code in TURNS.items():
        rows = [row for row in stack if row["winding"] == winding and row["state"] != "not_found"]
        if rows and all(_has(row, "turns", confirmed_only) for row in rows):
            value = sum(row["turns"] for row in rows)
            u = sum(assumed_uncertainty(code, row["how"], row["turns"]) for row in rows)
            yield Observation(code, value, u, _refs("stacklayer", rows))
