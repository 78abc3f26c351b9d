"""The output ports of the units."""
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class PortTable:
    """One row a port, sorted by unit; a port's number is its place within its unit.

    row : (p,) int           which unit
    label : (p,) str         as printed
    connector : (p,) str     code of the connector
    wiring : (p,) str        code of the data-line wiring, "" = not looked
    words : (p,) object      tuple of int, the 32-bit words that it advertises
    """

    row: np.ndarray
    label: np.ndarray
    connector: np.ndarray
    wiring: np.ndarray
    words: np.ndarray

    @classmethod
    def none(cls) -> "PortTable":
        names = np.zeros(0, str)
        return cls(np.zeros(0, int), names, names, names, np.zeros(0, object))

    def of(self, unit: int) -> range:
        """The rows of one unit's ports."""
        return range(*np.searchsorted(self.row, [unit, unit + 1]).tolist())

    def one(self, unit: int) -> "PortTable":
        """The ports of one unit, as rows of unit 0."""
        mine = slice(*np.searchsorted(self.row, [unit, unit + 1]))
        return PortTable(np.zeros_like(self.row[mine]), self.label[mine], self.connector[mine],
                         self.wiring[mine], self.words[mine])

    def several(self, n: int) -> np.ndarray:
        """(n,) Whether a unit has more than one port."""
        return np.bincount(self.row, minlength=n) > 1
