"""What a contributor's record is made of: a quantity's code, value, uncertainty and conditions."""
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Observed:
    code: str
    value: np.ndarray                       # (n,) SI, NaN: not recorded
    u: np.ndarray | float                   # (n,) standard uncertainty
    mains: np.ndarray | float = np.nan      # (n,) V, NaN: not stated
    output: np.ndarray | float = np.nan     # (n,) V


class Contributor:
    """Looks at some things and not at others, and reads them with an error."""

    def __init__(self, n, rng, regime):
        self.n, self.rng, self.regime = n, rng, regime
        self.opened = np.full(n, regime.opened)
        self.unwound = self.opened & (rng.random(n) < regime.unwound)
        self.tested = rng.random(n) < regime.tested

    def looks(self, chance=1.0):
        return self.rng.random(self.n) < self.regime.seen * chance

    def reads(self, code, value, chance=1.0, where=True):
        """Printed or counted: exact."""
        return Observed(code, np.where(self.looks(chance) & where, value, np.nan), 0.0)

    def measures(self, code, value, chance=1.0, where=True, relative=0.0, absolute=0.0,
                 **conditions):
        """With a normal error that the contributor knows."""
        u = np.hypot(relative * abs(value), absolute)
        found = np.abs(value + u * self.rng.normal(0, 1, self.n))
        return Observed(code, np.where(self.looks(chance) & where, found, np.nan), u, **conditions)
