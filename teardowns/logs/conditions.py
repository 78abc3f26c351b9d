"""What a log does not say of itself: how the bench was set while it was taken."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Accuracy:
    """An instrument's stated limits of error: a share of the reading plus a fixed part."""

    relative: float           # 0.005 for "0.5 % of reading"
    absolute: float           # in the unit of the channel
    digits: float = 0.0       # counts of the last digit, each as large as the channel's step


@dataclass(frozen=True, slots=True)
class Cable:
    length: float             # m, one way; 0: the voltage was taken at the port
    area: float               # m², of one conductor; any where the length is 0
    contacts: float = 0.0     # Ω, of all mated contacts on the way and back


@dataclass(frozen=True, slots=True)
class Conditions:
    """None is not stated; what cannot be read without it says so."""

    mains_voltage: float | None = None        # V rms
    mains_frequency: float | None = None      # Hz
    ambient: float | None = None              # °C
    set_voltage: float | None = None          # V that the port was set or contracted to
    lowest_voltage: float | None = None       # V below which the product's own sheet calls it lost
    rated_current: float | None = None        # A, of the plate at that voltage
    rated_power: float | None = None          # W, of the plate
    cable: Cable | None = None                # from port to meter; None: not known
    load: float | None = None                 # W at the output while a waveform was captured
    bus_voltage: float | None = None          # V across the bulk capacitor
    primary_inductance: float | None = None   # H
    inductance_u: float | None = None         # H, k = 1
    accuracies: Mapping[str, Accuracy] = field(default_factory=dict)      # by role
    input_log: str = ""                       # key of the recording of the mains side, "" for none
    input_offset: float = 0.0                 # s into this log at which that one begins

    def to_json(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> Conditions:
        cable = stored.get("cable")
        accuracies = {role: Accuracy(**stated)
                      for role, stated in (stored.get("accuracies") or {}).items()}
        return cls(**{**stored, "cable": Cable(**cable) if cable else None,
                      "accuracies": accuracies})
