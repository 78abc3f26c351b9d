"""RKM code, IEC 60062: a letter stands for the decimal point and the multiplier (4K7, R47, n47)."""

from __future__ import annotations

import re

RESISTOR_POWERS = {"L": -3, "R": 0, "K": 3, "k": 3, "M": 6, "G": 9, "T": 12}
CAPACITOR_POWERS = {"p": -12, "n": -9, "u": -6, "µ": -6, "m": -3}

_CODE = re.compile(r"([0-9]{0,4})([A-Za-zµ])([0-9]{0,3})([A-Z]?)")


def read_rkm(token: str, powers: dict[str, int]) -> tuple[float, str] | None:
    """(value, tolerance letter or "") in the base unit, or None where the token is no RKM code."""
    match = _CODE.fullmatch(token)
    if match is None:
        return None
    whole, letter, rest, tolerance = match.groups()
    if letter not in powers or not (whole or rest):
        return None
    return float(f"{whole or 0}.{rest or 0}e{powers[letter]}"), tolerance
