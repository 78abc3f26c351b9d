"""How the parts of one role become one quantity of the unit."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from teardowns.exchange.observing.observation import the_one

BRIDGE = 4                  # as many mains diodes rectify both half-waves
# ± of a nominal value whose tolerance was not recorded; common practice, no source.
CAPACITOR, RESISTOR = 0.2, 0.05


@dataclass(frozen=True, slots=True)
class Piece:
    """What one row says: so many alike, each with this value."""

    count: int
    value: float
    spread: float                       # standard uncertainty, relative


@dataclass(frozen=True, slots=True)
class Recipe:
    """How the rows of a role become one quantity."""

    role: str
    code: str
    field: str                          # of the row
    combine: Callable[[Sequence[Piece]], float | None]
    tolerance: float = 0.0              # ± of a nominal value, as a fraction; 0 for a rating
    of_wet_parts: bool = False          # says nothing of polymer and ceramic capacitors


def all_together(pieces: Sequence[Piece]) -> float:
    """In parallel, what adds up: capacitance, current ratings."""
    return sum(piece.count * piece.value for piece in pieces)


def in_parallel(pieces: Sequence[Piece]) -> float:
    """Resistances in parallel."""
    return 1.0 / sum(piece.count / piece.value for piece in pieces)


def alike(pieces: Sequence[Piece]) -> float | None:
    """What all have in common: in series or in parallel it is the same."""
    return the_one([piece.value for piece in pieces])


def alone(pieces: Sequence[Piece]) -> float | None:
    """Of one part only: how several are joined is not recorded."""
    return pieces[0].value if sum(piece.count for piece in pieces) == 1 else None


def rectifying(pieces: Sequence[Piece]) -> float | None:
    """Of four diodes two carry the current in turn; one body, or one diode, carries it all."""
    number = sum(piece.count for piece in pieces)
    smallest = min(piece.value for piece in pieces)
    return {1: smallest, BRIDGE: 2.0 * smallest}.get(number)


RECIPES = (
    Recipe("bulk_capacitor", "bulk_capacitance_marked", "nominal", all_together, CAPACITOR),
    Recipe("x_capacitor", "x_capacitance", "nominal", all_together, CAPACITOR),
    Recipe("barrier_capacitor", "barrier_capacitance", "nominal", all_together, CAPACITOR),
    Recipe("fuse", "fuse_rating", "rated_current", alike),
    Recipe("fusible_resistor", "fusible_resistance", "nominal", alone, RESISTOR),
    Recipe("fusible_resistor", "fusible_power_rating", "rated_power", alone),
    Recipe("discharge_resistor", "discharge_resistance", "nominal", alone, RESISTOR),
    Recipe("sense_resistor", "current_sense_resistance", "nominal", in_parallel, RESISTOR),
    Recipe("rectifier", "bridge_current_rating", "rated_current", rectifying),
    Recipe("primary_switch", "switch_voltage_rating", "rated_voltage", alone),
    Recipe("output_rectifier", "rectifier_voltage_rating", "rated_voltage", alike),
    Recipe("output_rectifier", "rectifier_current_rating", "rated_current", all_together),
    Recipe("output_rectifier", "synchronous_on_resistance", "on_resistance", in_parallel),
    Recipe("output_capacitor", "output_ripple_rating", "ripple_current", all_together),
    Recipe("output_capacitor", "output_capacitor_diameter", "diameter", alike, of_wet_parts=True),
    Recipe("output_capacitor", "output_capacitor_length", "length", alike, of_wet_parts=True),
)
