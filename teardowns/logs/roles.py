"""What a column of a log can be, and the units in which files write it."""
from dataclasses import dataclass

NOT_USED, TIME = "not_used", "time"


@dataclass(frozen=True, slots=True)
class Role:
    code: str
    label: str                # as a form names it
    unit: str                 # SI; temperatures are kept in °C
    several: bool = False     # whether a log may have more than one such column


ROLES = {role.code: role for role in (
    Role(NOT_USED, "not used", "", several=True),
    Role(TIME, "time", "s"),
    Role("output_voltage", "output voltage", "V"),
    Role("output_current", "output current", "A"),
    Role("output_power", "output power", "W"),
    Role("set_current", "current that the load was set to", "A"),
    Role("input_voltage", "mains voltage, rms", "V"),
    Role("input_current", "mains current, rms", "A"),
    Role("input_power", "mains power", "W"),
    Role("ambient_temperature", "temperature of the air", "°C"),
    Role("temperature", "temperature", "°C", several=True),
    Role("switch_voltage", "voltage at the primary switch", "V"),
    Role("winding_voltage", "voltage of an output-side winding", "V"),
    Role("ripple_voltage", "output voltage, fine", "V"),
)}

_PREFIXES = {"": 1.0, "k": 1e3, "m": 1e-3, "µ": 1e-6, "u": 1e-6, "n": 1e-9, "M": 1e6}
# Unit as files write it → (factor, offset): value in SI = factor · (written + offset).
UNITS: dict[str, dict[str, tuple[float, float]]] = {
    "V": {p + "V": (f, 0.0) for p, f in _PREFIXES.items()},
    "A": {p + "A": (f, 0.0) for p, f in _PREFIXES.items()},
    "W": {p + "W": (f, 0.0) for p, f in _PREFIXES.items()},
    "s": {"s": (1.0, 0.0), "ms": (1e-3, 0.0), "µs": (1e-6, 0.0), "us": (1e-6, 0.0),
          "ns": (1e-9, 0.0), "ps": (1e-12, 0.0), "min": (60.0, 0.0), "h": (3600.0, 0.0),
          "d": (86400.0, 0.0)},
    "°C": {"°C": (1.0, 0.0), "C": (1.0, 0.0), "K": (1.0, -273.15), "°F": (5 / 9, -32.0),
           "F": (5 / 9, -32.0)},
    "": {"": (1.0, 0.0)},
}
