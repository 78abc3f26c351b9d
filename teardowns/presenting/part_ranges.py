"""Which units are held against a published power: those for the supply that it is given for."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from teardowns.engine.default_value import HIGH_RANGE


class End(Protocol):
    @property
    def voltage(self) -> float: ...
    @property
    def is_assumed(self) -> bool: ...
    @property
    def low(self) -> float: ...
    @property
    def median(self) -> float: ...
    @property
    def high(self) -> float: ...


class Powers(Protocol):
    """What `services.part_powers` tells of a unit."""

    @property
    def pk(self) -> int: ...
    @property
    def title(self) -> str: ...
    @property
    def claimed(self) -> float | None: ...
    @property
    def ends(self) -> Sequence[End]: ...
    @property
    def measured(self) -> float | None: ...
    @property
    def measured_mains(self) -> float | None: ...


@dataclass(frozen=True, slots=True)
class Range:
    """A supply that power tables are drawn up for."""

    code: str
    name: str
    mains: str                               # of the units that are compared
    holds: Callable[[float], bool]           # whether a mains voltage belongs to it


RANGES = (
    Range("controller_power_wide", "85 to 265 V", f"below {HIGH_RANGE:g}\u202fV",
          lambda v: v < HIGH_RANGE),
    Range("controller_power_high", "230 V", f"{HIGH_RANGE:g}\u202fV and more",
          lambda v: v >= HIGH_RANGE),
)


@dataclass(frozen=True, slots=True)
class Seen:
    """One unit in one range. Measured and worked out stay apart: never both."""

    unit: Powers
    measured: float | None
    worked_out: End | None


def seen_in(units: Sequence[Powers], one: Range) -> list[Seen]:
    """Units whose plate reaches into the range, or that were measured there."""
    found = []
    for unit in units:
        ends = ends_in(unit, one)
        at = unit.measured_mains
        measured = unit.measured if at is not None and one.holds(at) else None
        if ends or measured is not None:
            end = min(ends, key=lambda end: end.median) if ends and measured is None else None
            found.append(Seen(unit, measured, end))
    return found


def ends_in(unit: Powers, one: Range) -> list[End]:
    """Where the plate does not state its mains, no range is known."""
    return [end for end in unit.ends if one.holds(end.voltage) and not end.is_assumed]
