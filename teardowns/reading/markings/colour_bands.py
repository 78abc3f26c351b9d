"""Colour bands of IEC 60062: 4 bands carry two digits, 5 and 6 bands three."""

from __future__ import annotations

import re

_DIGITS = (
    "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white",
)  # fmt: skip
_POWERS = {name: i for i, name in enumerate(_DIGITS)} | {"gold": -1, "silver": -2, "pink": -3}
_TOLERANCES = {
    "brown": 0.01, "red": 0.02, "green": 0.005, "blue": 0.0025, "violet": 0.001, "grey": 0.0005,
    "gold": 0.05, "silver": 0.10,
}  # fmt: skip
_ALIASES = {"gray": "grey", "purple": "violet"}
_SEPARATORS = re.compile(r"[\s,;/-]+")


def colour_names(text: str) -> tuple[str, ...] | None:
    """The bands named in the text, or None where it is anything but colour names."""
    words = [_ALIASES.get(w, w) for w in _SEPARATORS.split(text.strip().lower()) if w]
    return tuple(words) if words and all(w in _POWERS for w in words) else None


def read_bands(bands: tuple[str, ...], unit_power: int = 0) -> tuple[float, float] | None:
    """(value, tolerance as a fraction) of 3 to 6 bands, or None where a band cannot stand there."""
    if not 3 <= len(bands) <= 6:
        return None
    count = 3 if len(bands) >= 5 else 2
    if any(band not in _DIGITS for band in bands[:count]):
        return None
    digits = "".join(str(_DIGITS.index(band)) for band in bands[:count])
    tolerance = 0.20 if len(bands) == 3 else _TOLERANCES.get(bands[count + 1])
    if tolerance is None:
        return None
    return float(f"{digits}e{_POWERS[bands[count]] + unit_power}"), tolerance
