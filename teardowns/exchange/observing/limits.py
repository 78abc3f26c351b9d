"""What the library publishes of the types that were found."""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from teardowns.engine.evidence import assumed_uncertainty
from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.observing.observation import (
    Observation,
    Row,
    is_recorded,
    may_be_there,
    the_one,
)

# Limits that speak as they are; those of single pieces are in recipes.py.
LIMITS = {
    "primary_controller": (
        "controller_power_wide", "controller_power_high", "controller_supply_low",
        "controller_supply_high", "current_sense_threshold", "maximum_duty",
        "switching_frequency", "primary_decodes_requests",
    ),
    "core": ("core_effective_area", "core_window_area", "saturation_flux_density",
             "inductance_factor"),
}
SWITCH = "switch_voltage_rating"
# Relative, k = 1, of what a data sheet gives as typical; usual of controllers, from memory.
SPREAD = {"switching_frequency": 0.07}

Limits = Mapping[str, Mapping[str, float]]


def limits_by_marking(parts: Sequence[Row]) -> Limits:
    """Limits of each entry by quantity; two sheets that differ decide nothing."""
    return {part["marking"]: _limits_of(part) for part in parts}


def _limits_of(part):
    by_code: dict[str, list[float]] = {}
    for limit in part["limits"]:
        by_code.setdefault(limit["quantity"], []).append(limit["value"])
    return {code: values[0] for code, values in by_code.items() if the_one(values) is not None}


def library(row: Row, limits: Limits) -> Mapping[str, float]:
    """The limits of the entry that a component cites."""
    return limits.get(row.get("part", ""), {})


def published(rows: Sequence[Row], limits: Limits) -> Iterator[Observation]:
    """rows : components that count. Where two parts of a role differ, the lowest or none speaks."""
    for role, codes in LIMITS.items():
        found = [row for row in rows if row["role"] == role and is_recorded(row)]
        for code in codes:
            cited = _cited(found, code, limits)
            values = [value for _, value in cited]
            if QUANTITIES[code].pooling != "mean" or the_one(values) is not None:
                yield from (_limit(code, value, row) for row, value in cited)


def integrated_switch(components: Sequence[Row], speaking: Sequence[Row],
                      limits: Limits) -> Iterator[Observation]:
    """Of a controller that contains the switch, where none of its own may lie on the board."""
    if may_be_there(row for row in components if row["role"] == "primary_switch"):
        return
    cited = _cited([row for row in speaking if row["role"] == "primary_controller"
                    and is_recorded(row)], SWITCH, limits)
    if len(cited) == 1:
        row, value = cited[0]
        yield _limit(SWITCH, value, row)


def _cited(rows, code, limits):
    return [(row, value) for row in rows if (value := library(row, limits).get(code)) is not None]


def _limit(code, value, row):
    u = SPREAD.get(code, 0.0) * value or assumed_uncertainty(code, "data_sheet", value)
    return Observation(code, value, u, (f"component/{row['key']}",))
