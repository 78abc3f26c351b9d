"""Electrolytic capacitors: wet and polymer cans, and chips with a code."""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.decoding import Decoding, OtherReading
from teardowns.reading.markings.three_digit import read_digits
from teardowns.reading.markings.tolerance import FRACTIONS, read_percent
from teardowns.reading.markings.voltage_code import BARE_LETTERS, read_voltage_code

_SMALLEST = 0.1e-6  # F; smaller electrolytics are not made, so a code below it is no code
_CATEGORY = frozenset({"85", "105", "125", "130", "135", "145", "150"})  # °C, common practice
_SEPARATE = re.compile(r"(?<=[FVfv])[/xX]?(?=[0-9])|(?<=[FV])[/]?(?=[-+]?[0-9]{2,3}°)")
_LETTER_CODE = re.compile(r"([A-Za-z])([0-9]{3})|([0-9]{3})([A-Za-z])")
_GLUED_CODE = re.compile(r"([0-9]{3})([0-3][A-HJKNVW])")
_POINT_R = re.compile(r"([0-9]{0,2})R([0-9]{1,2})")
_NUMBER = re.compile(r"[0-9]{1,5}(?:\.[0-9]{1,3})?|\.[0-9]{1,3}")
_PAIR = re.compile(r"([0-9]{1,5}(?:\.[0-9])?)/([0-9]{1,3}(?:\.[0-9])?)")


def decode_electrolytic(text: str) -> Decoding:
    found: dict = {}
    unread: list[str] = []
    for token in written.tokens(_SEPARATE.sub(" ", written.plain(text))):
        fields = _read_token(token, found)
        if fields is None:
            unread.append(token)
        else:
            notes = found.get("notes", ()) + fields.get("notes", ())
            found |= {name: value for name, value in fields.items() if name not in found}
            found["notes"] = notes
    return Decoding("electrolytic_capacitor", text, unit="F", unread=" ".join(unread), **found)


def _read_token(token: str, found: dict) -> dict | None:
    for read in (_read_voltage, _read_conditions, _read_value):
        if (fields := read(token, found)) is not None:
            return fields
    return None


def _read_voltage(token: str, found: dict) -> dict | None:
    if "rated_voltage" in found:
        return None
    voltage = written.read_voltage(token)
    volts = voltage[0] if voltage else read_voltage_code(token)
    if volts is None and "value" in found and token in BARE_LETTERS:
        note = f"“{token}” is read as the voltage letter for {BARE_LETTERS[token]:g} V."
        return {"rated_voltage": BARE_LETTERS[token], "voltage_kind": "dc", "notes": (note,)}
    return None if volts is None else {"rated_voltage": volts, "voltage_kind": "dc"}


def _read_conditions(token: str, found: dict) -> dict | None:
    if (percent := read_percent(token)) is not None:
        return {"tolerance": percent}
    degrees = written.read_temperature(token)
    if degrees is not None and ("°" in token or "value" in found):
        return {"temperature": degrees}
    if "value" not in found:
        return None
    if token in _CATEGORY and "temperature" not in found:
        return {"temperature": float(token), "notes": (f"“{token}” is read as {token} °C.",)}
    return {"tolerance": FRACTIONS[token]} if token in ("K", "M", "T", "Q") else None


def _read_value(token: str, found: dict) -> dict | None:
    if "value" in found or "others" in found:
        return None
    if (spelled := written.read_written(token, "F")) is not None:
        return {"value": spelled, "scheme": "written"}
    if match := _POINT_R.fullmatch(token):
        value = float(f"{match[1] or 0}.{match[2]}e-6")
        return {"value": value, "scheme": "R as decimal point"}
    if match := _GLUED_CODE.fullmatch(token):
        return {**_read_number(match[1]), "rated_voltage": read_voltage_code(match[2]),
                "voltage_kind": "dc"}
    if match := _PAIR.fullmatch(token):
        note = f"“{token}” is read as µF / V."
        return {"value": float(f"{match[1]}e-6"), "scheme": "number without unit",
                "rated_voltage": float(match[2]), "voltage_kind": "dc", "notes": (note,)}
    return _read_letter_code(token) or (_read_number(token) if _NUMBER.fullmatch(token) else None)


def _read_letter_code(token: str) -> dict | None:
    """`A476`, `107J`: voltage letter and three digits in pF, on tantalum and polymer chips."""
    match = _LETTER_CODE.fullmatch(token)
    if match is None or (letter := match[1] or match[4]) not in BARE_LETTERS:
        return None
    return {**_read_number(match[2] or match[3]), "rated_voltage": BARE_LETTERS[letter],
            "voltage_kind": "dc"}


def _read_number(token: str) -> dict:
    """A number without unit: three digits as a pF code where that is a size that is made, else µF.

    476 µF is in no E series and 10 pF is no electrolytic, so 476 and 100 have one reading each; 471
    has none that is made. Exponents above 7 are plain: 228 is 2200 µF here, not 0.22 pF.
    """
    literal = OtherReading(
        float(f"{token}e-6"), "F", "number without unit", "if the number is printed in µF"
    )
    farads = read_digits(token, -12) if len(token) == 3 and "." not in token else None
    if farads is None:
        return _as_microfarads(token, literal)
    code = OtherReading(farads, "F", "three digits", "if the number is a code in pF")
    if farads >= _SMALLEST:
        return {"value": farads, "scheme": "three digits"}
    if token[2] == "0":
        return _as_microfarads(token, literal)
    return {"others": (literal, code), "notes": (f"“{token}” can be read in two ways.",)}


def _as_microfarads(token: str, literal: OtherReading) -> dict:
    note = f"“{token}” has no unit; read as µF, as is usual on cans (common practice)."
    return {"value": literal.value, "scheme": literal.scheme, "notes": (note,)}
