"""Numbers and quantities in words, for sentences that the engine writes."""
from math import floor, isfinite, log10

from .quantities import QUANTITIES

PREFIXES = {"M": 1e6, "k": 1e3, "m": 1e-3, "µ": 1e-6, "n": 1e-9}
NARROW = "\u202f"


def plain(value: float, unit: str, digits: int = 3) -> str:
    """The value to three digits, trailing zeros left out: "2.25 A"."""
    return f"{rounded(value, digits)}{NARROW}{unit}" if unit != "1" else rounded(value, digits)


def rounded(value: float, digits: int = 3) -> str:
    if value is None or not isfinite(value):
        return "unknown"
    if value == 0:
        return "0"
    places = max(digits - 1 - floor(log10(abs(value))), 0)
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def shown(code: str, value: float) -> str:
    """A quantity in the unit that a person types: shown("bulk_capacitance", 1.5e-5) = 15 µF."""
    quantity = QUANTITIES[code]
    if quantity.is_flag:
        return "found" if value > 0.5 else "not found"
    unit = quantity.shown_in or quantity.unit
    return plain(value * _scale(quantity), unit)


def _scale(quantity):
    """How many of the shown unit make one SI unit; kilograms are shown in grams."""
    if not quantity.shown_in:
        return 1.0
    factor = 1.0
    if quantity.unit == "kg":
        return 1e3
    prefix = quantity.shown_in[0]
    factor = 1 / PREFIXES[prefix]
    return factor * factor if quantity.shown_in.endswith("²") else factor


def sentence_case(text: str) -> str:
    return text[:1].upper() + text[1:]
