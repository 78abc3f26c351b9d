"""Resistors: colour bands, RKM, three and four digits, EIA-96, or the value spelled out."""

from __future__ import annotations

from teardowns.reading.markings import written
from teardowns.reading.markings.colour_bands import colour_names, read_bands
from teardowns.reading.markings.decoding import Decoding, OtherReading
from teardowns.reading.markings.eia96 import read_eia96
from teardowns.reading.markings.rkm import RESISTOR_POWERS, read_rkm
from teardowns.reading.markings.three_digit import read_digits
from teardowns.reading.markings.tolerance import read_percent, tolerance_of

_JUMPERS = frozenset({"0", "00", "000", "0000"})


def decode_resistor(text: str) -> Decoding:
    bands = colour_names(text)
    if bands is not None:
        return _decode_bands(text, bands)
    found: dict = {}
    unread: list[str] = []
    for token in written.tokens(written.plain(text)):
        if "value" not in found and (value := _read_value(token)):
            found |= value
        elif "value" not in found and (plain_ohms := _read_plain_ohms(token)):
            found |= plain_ohms
        elif (percent := read_percent(token)) and "tolerance" not in found:
            found["tolerance"] = percent
        elif (power := written.read_power(token)) and "rated_power" not in found:
            found["rated_power"] = power
        elif "value" in found and "tolerance" not in found and tolerance_of(token):
            found["tolerance"] = tolerance_of(token)
        else:
            unread.append(token)
    return Decoding("resistor", text, unit="Ω", unread=" ".join(unread), **found)


def _decode_bands(text: str, bands: tuple[str, ...]) -> Decoding:
    read = read_bands(bands)
    if read is None:
        note = "These colours are no resistor code from this end: try the other direction."
        return Decoding("resistor", text, unit="Ω", unread=text.strip(), notes=(note,))
    value, half = read
    return Decoding(
        "resistor", text, value, "Ω", (-half, half), scheme="colour bands",
        others=_other_direction(bands, value),
    )  # fmt: skip


def _other_direction(bands: tuple[str, ...], value: float) -> tuple[OtherReading, ...]:
    reversed_ = read_bands(bands[::-1])
    if reversed_ is None or reversed_[0] == value:
        return ()
    why = "if the bands are read from the other end"
    return (OtherReading(reversed_[0], "Ω", "colour bands", why),)


def _read_value(token: str) -> dict | None:
    """The fields a value token yields, its other readings included."""
    if token in _JUMPERS:
        return {"value": 0.0, "scheme": "jumper"}
    if (spelled := written.read_written(token, "Ω")) is not None and token[-1] not in "kK":
        return {"value": spelled, "scheme": "written"}
    if (rkm := _read_rkm(token)) is not None:
        return rkm
    if (digits := _read_digit_code(token)) is not None:
        return digits
    if (indexed := read_eia96(token)) is not None:
        return {"value": indexed, "scheme": "EIA-96"}
    return None


def _read_rkm(token: str) -> dict | None:
    read = read_rkm(token, RESISTOR_POWERS)
    if read is None or (read[1] and tolerance_of(read[1]) is None):
        return _read_decimal_kilo(token)
    value, letter = read
    found = {"value": value, "scheme": "RKM"}
    if letter:
        found["tolerance"] = tolerance_of(letter)
    indexed = read_eia96(token)
    if indexed is not None and indexed != value:
        why = "if it is a 1 % chip marked in EIA-96"
        found["others"] = (OtherReading(indexed, "Ω", "EIA-96", why),)
    return found


def _read_decimal_kilo(token: str) -> dict | None:
    """`4.7k`, `0.22R`: written with a point and a multiplier letter."""
    number, letter = token[:-1], token[-1:]
    digits = number.replace(".", "", 1)
    if letter not in RESISTOR_POWERS or not (digits.isascii() and digits.isdecimal()):
        return None
    return {"value": float(f"{number}e{RESISTOR_POWERS[letter]}"), "scheme": "written"}


def _read_plain_ohms(token: str) -> dict | None:
    """One or two bare digits are no code: ohms at most as a proposal."""
    if not (token.isascii() and token.isdecimal() and len(token) <= 2):
        return None
    why = "if the number is printed in ohms without a letter"
    return {"others": (OtherReading(float(token), "Ω", "number without unit", why),)}


def _read_digit_code(token: str) -> dict | None:
    letter = token[-1] if token[-1:].isalpha() else ""
    digits = token[:-1] if letter else token
    value = read_digits(digits, 0)
    if value is None or (letter and tolerance_of(letter) is None):
        return None
    scheme = "three digits" if len(digits) == 3 else "four digits"
    found = {"value": value, "scheme": scheme}
    if letter:
        found["tolerance"] = tolerance_of(letter)
    farads = read_digits(digits, -12, ceramic=True) if len(digits) == 3 else None
    if farads is not None:
        why = "if the part is a capacitor: digits × 10ⁿ pF"
        found["others"] = (OtherReading(farads, "F", scheme, why),)
    return found
