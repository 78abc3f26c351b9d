"""What the reader found: claims, what it could not read, and what a person must decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

# Fields of a PlateClaim by name, while its place is still that in the normalised text.
Fields = dict[str, Any]

KINDS = (
    "input", "output", "total", "protocol", "model", "maker", "mark", "feature", "listing",
)  # fmt: skip


class PlateError(ValueError):
    """The text cannot be taken in; the message is in the user's words."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of the verbatim text: text == original[start:end]."""

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class PlateClaim:
    """One statement of the text. SI units; what is not printed stays None.

    A fixed output has `voltage`; a range has `voltage_low` and `voltage_high`. An input has low and
    high (equal for a single value); selectable values (115/230 V) stand in `voltages` as well.
    Several printed currents stand in `currents`, the largest also in `current`.
    """

    kind: str
    text: str  # verbatim
    start: int  # offsets into the verbatim text
    end: int
    voltage: float | None = None  # V
    voltage_low: float | None = None  # V
    voltage_high: float | None = None  # V
    voltages: tuple[float, ...] = ()  # V
    frequency_low: float | None = None  # Hz
    frequency_high: float | None = None  # Hz
    current: float | None = None  # A
    currents: tuple[float, ...] = ()  # A
    power: float | None = None  # W
    power_stated: bool = False  # True where the text itself prints the watts
    apparent_power: float | None = None  # VA
    nature: str | None = None  # "ac" or "dc"
    port: str = ""  # "USB-C1", "USB-C1+USB-A", "" where not stated
    shared: bool | None = None  # True: the rating is shared by several ports; None: not stated
    protocol: str = ""  # "PD", "PPS", "QC", … as printed
    protocol_version: str = ""
    mark: str = ""  # "class_ii", "efficiency_level:VI", …; a feature's "over_voltage_protection", …
    model: str = ""
    maker: str = ""


@dataclass(frozen=True, slots=True)
class PlateReading:
    text: str
    claims: tuple[PlateClaim, ...]
    unread: tuple[Span, ...]
    questions: tuple[str, ...]
