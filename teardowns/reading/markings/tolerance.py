"""Tolerance letters of IEC 60062.

F, G, J, K, M and the picofarads of B, C, D are in makers' tables; the rest is from memory.
"""

from __future__ import annotations

import re

# letter -> (lower, upper) as fractions
FRACTIONS: dict[str, tuple[float, float]] = {
    "B": (-0.001, 0.001), "C": (-0.0025, 0.0025), "D": (-0.005, 0.005), "F": (-0.01, 0.01),
    "G": (-0.02, 0.02), "J": (-0.05, 0.05), "K": (-0.10, 0.10), "M": (-0.20, 0.20),
    "N": (-0.30, 0.30), "Q": (-0.10, 0.30), "T": (-0.10, 0.50), "S": (-0.20, 0.50),
    "Z": (-0.20, 0.80),
}  # fmt: skip
LETTERS = "".join(FRACTIONS)

# Below 10 pF these letters are picofarads, not per cent.
PICOFARADS = {"B": 0.1, "C": 0.25, "D": 0.5, "F": 1.0, "G": 2.0}

_PERCENT = re.compile(r"(?:±|\+/?-)?([0-9]{1,2}(?:\.[0-9]{1,2})?)%")


def tolerance_of(letter: str) -> tuple[float, float] | None:
    return FRACTIONS.get(letter)


def capacitor_tolerance(letter: str, farads: float) -> tuple[float, float] | None:
    """The letter's tolerance as fractions, also for the absolute letters below 10 pF."""
    if 0.0 < farads < 9.9999e-12 and letter in PICOFARADS:
        half = PICOFARADS[letter] * 1e-12 / farads
        return (-half, half)
    return FRACTIONS.get(letter)


def read_percent(token: str) -> tuple[float, float] | None:
    """`±5%`, `5%`, `+-10%`."""
    match = _PERCENT.fullmatch(token)
    if match is None:
        return None
    half = float(match[1]) / 100.0
    return (-half, half)
