"""Digits × 10^n codes: three digits on capacitors and inductors, three or four on resistors.

Common to IEC 60062 and the makers' tables of capacitors, which give n = 8 → 0.01 and n = 9 → 0.1.
"""

from __future__ import annotations

import re

_DIGITS = re.compile(r"([0-9]{2,3})([0-9])")
_CERAMIC_POWERS = {8: -2, 9: -1}


def read_digits(token: str, unit_power: int, *, ceramic: bool = False) -> float | None:
    """`223` with unit_power −12 is 22 nF; the result is correctly rounded from its decimal form."""
    match = _DIGITS.fullmatch(token)
    if match is None:
        return None
    power = int(match[2])
    if ceramic:
        power = _CERAMIC_POWERS.get(power, power)
    return float(f"{match[1]}e{power + unit_power}")
