"""What a marking was read as."""

from __future__ import annotations

from dataclasses import dataclass


class MarkingError(ValueError):
    """The marking cannot be taken in at all; the message is in the user's words."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


@dataclass(frozen=True, slots=True)
class OtherReading:
    """A second way to read the same marking, and when it would be the right one."""

    value: float
    unit: str
    scheme: str
    why: str


@dataclass(frozen=True, slots=True)
class Decoding:
    """A marking, decoded for one kind of component. What is not printed stays None."""

    kind: str
    text: str  # verbatim
    value: float | None = None  # nominal value in `unit`
    unit: str = ""
    tolerance: tuple[float, float] | None = None  # signed fractions, (−0.2, 0.8) for −20/+80 %
    rated_voltage: float | None = None  # V
    voltage_kind: str | None = None  # "dc" or "ac", None where the marking does not say
    safety_classes: tuple[tuple[str, float | None], ...] = ()  # class, rated a.c. voltage (V)
    rated_current: float | None = None  # A
    rated_power: float | None = None  # W
    temperature: float | None = None  # °C, the upper category temperature
    breaking_capacity: float | None = None  # A
    time_characteristic: str | None = None  # FF, F, M, T or TT
    scheme: str | None = None  # how the value was written
    others: tuple[OtherReading, ...] = ()
    unread: str = ""  # the pieces of the marking that were not understood
    notes: tuple[str, ...] = ()
