"""EIA-96: two digits are an index into E96 (IEC 60063), a letter is the multiplier.

C multiplies by 100, so 01C is 10 kΩ; one published test suite reads it as 100 Ω by another table.
"""

from __future__ import annotations

import re

_POWERS = {
    "Z": -3, "Y": -2, "R": -2, "X": -1, "S": -1, "A": 0, "B": 1, "H": 1, "C": 2, "D": 3, "E": 4,
    "F": 5,
}  # fmt: skip
_CODE = re.compile(r"([0-9]{2})([A-Z])")


def read_eia96(token: str) -> float | None:
    """Ohms of an EIA-96 code, or None."""
    match = _CODE.fullmatch(token)
    if match is None or match[2] not in _POWERS or not 1 <= int(match[1]) <= 96:
        return None
    mantissa = round(100.0 * 10.0 ** ((int(match[1]) - 1) / 96.0))
    return float(f"{mantissa}e{_POWERS[match[2]]}")
