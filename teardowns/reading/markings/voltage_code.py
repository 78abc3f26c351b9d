"""Rated-voltage codes of capacitors: digit = power of ten, letter = factor (JIS/EIA).

0G, 0J, 1A, 1C, 1E, 1V, 1H, 1N, 2A, 2D, 2E, 2H are in makers' tables; the rest is from memory, as
are the bare letters of small electrolytics.
"""

from __future__ import annotations

import re

_FACTORS = {
    "A": "1.0", "B": "1.25", "C": "1.6", "D": "2.0", "E": "2.5", "F": "3.15", "V": "3.5",
    "G": "4.0", "W": "4.5", "H": "5.0", "J": "6.3", "N": "7.5", "K": "8.0",
}  # fmt: skip
_CODE = re.compile(rf"([0-3])([{''.join(_FACTORS)}])")
BARE_LETTERS = {
    "e": 2.5, "G": 4.0, "J": 6.3, "A": 10.0, "C": 16.0, "E": 25.0, "V": 35.0, "H": 50.0,
}  # fmt: skip


def read_voltage_code(token: str) -> float | None:
    """Volts of `1C`, `2G`, …"""
    match = _CODE.fullmatch(token)
    return float(f"{_FACTORS[match[2]]}e{match[1]}") if match else None
