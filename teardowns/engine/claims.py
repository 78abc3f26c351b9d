"""What is printed about the output, as arrays."""
from dataclasses import dataclass

import numpy as np

FIXED_VOLTAGE = 5.5      # V; up to here no voltage claim is judged (vSafe5V, 4.75 to 5.5 V)


@dataclass(frozen=True, slots=True)
class ClaimTable:
    """Claims about the output, one row each, in any order.

    row : (m,) int            which unit
    kind : (m,) str           "output", "total", or "listing" for a phrase of advertising
    voltage : (m,) float      NaN = not printed [V]
    current : (m,) float      NaN = not printed [A]
    power : (m,) float        as printed; NaN = not printed, then V·I counts [W]
    connector : (m,) str      code of the port's connector, "" = not known
    port : (m,) int           which port of the unit, −1 = of the unit, or not known
    shared : (m,) bool        printed as shared by several ports; a total: of some ports only
    claim_id : (m,) int       index into the caller's refs
    """

    row: np.ndarray
    kind: np.ndarray
    voltage: np.ndarray
    current: np.ndarray
    power: np.ndarray
    connector: np.ndarray
    port: np.ndarray
    shared: np.ndarray
    claim_id: np.ndarray

    @property
    def claimed_power(self) -> np.ndarray:
        """(m,) The printed power, else voltage times current; NaN when neither. [W]"""
        power = np.where(np.isnan(self.power), self.voltage * self.current, self.power)
        return np.where(power > 0, power, np.nan)

    def take(self, rows) -> "ClaimTable":
        return ClaimTable(*(getattr(self, name)[rows] for name in self.__slots__))


def largest_by_unit(row: np.ndarray, value: np.ndarray, n: int) -> np.ndarray:
    """(n,) The largest value of each unit; NaN for a unit without any."""
    best = np.full(n, -np.inf)
    known = ~np.isnan(value)
    np.maximum.at(best, row[known], value[known])
    return np.where(np.isfinite(best), best, np.nan)
