"""What is claimed at a port, as port checks read it: voltages, currents and powers side by side."""
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import isnan

from .claims import FIXED_VOLTAGE
from .wording import plain


@dataclass(frozen=True, slots=True)
class PortClaim:
    """NaN where a figure is not printed."""

    voltage: float      # V
    current: float      # A
    power: float        # W

    @property
    def is_above_5v(self) -> bool:
        return self.voltage > FIXED_VOLTAGE

    @property
    def words(self) -> str:
        """`9 V 2 A`, or what of it is printed."""
        known = [plain(value, unit) for value, unit in (
            (self.voltage, "V"), (self.current, "A")) if not isnan(value)]
        return " ".join(known) or plain(self.power, "W")


def port_claims(voltages: Sequence[float], currents: Sequence[float],
                powers: Sequence[float]) -> tuple[PortClaim, ...]:
    return tuple(map(PortClaim, voltages, currents, powers))


def listed(texts: Iterable[str]) -> str:
    """`a, b and c`, each once."""
    *before, last = dict.fromkeys(texts)
    return f"{', '.join(before)} and {last}" if before else last
