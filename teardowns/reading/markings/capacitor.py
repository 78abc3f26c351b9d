"""Ceramic and film capacitors."""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.capacitor_code import read_capacitance
from teardowns.reading.markings.decoding import Decoding
from teardowns.reading.markings.safety_capacitor import decode_safety_capacitor, has_class
from teardowns.reading.markings.tolerance import capacitor_tolerance, read_percent
from teardowns.reading.markings.voltage_code import read_voltage_code

# EIA-198 classes: X7R, X5R, Y5V, Z5U, C0G …
_DIELECTRIC = re.compile(r"(?:[XYZ][2-9][A-Z]|C[0O]G|NP[0O]|U2J)")
_BARE_MICRO = re.compile(r"(0?\.[0-9]{1,4})([A-Z])?")
_BARE_PICO = re.compile(r"([0-9]{1,2})([A-Z])?")


def decode_capacitor(text: str) -> Decoding:
    if has_class(text):
        return decode_safety_capacitor(text, kind="capacitor")
    found: dict = {}
    notes: list[str] = []
    unread: list[str] = []
    for token in written.tokens(written.plain(text)):
        fields = _read_token(token, found)
        if fields is None:
            unread.append(token)
            continue
        notes += fields.pop("notes", ())
        found |= {name: value for name, value in fields.items() if name not in found}
    return Decoding(
        "capacitor", text, unit="F", unread=" ".join(unread), notes=tuple(notes), **found
    )


def _read_token(token: str, found: dict) -> dict | None:
    if "rated_voltage" not in found:
        if (voltage := written.read_voltage(token)) is not None:
            return {"rated_voltage": voltage[0], "voltage_kind": voltage[1]}
        if (coded := read_voltage_code(token)) is not None and "value" in found:
            return {"rated_voltage": coded, "voltage_kind": "dc"}
    if "tolerance" not in found:
        if (percent := read_percent(token)) is not None:
            return {"tolerance": percent}
        if "value" in found and capacitor_tolerance(token, found["value"]):
            return {"tolerance": capacitor_tolerance(token, found["value"])}
    if _DIELECTRIC.fullmatch(token):
        return {"notes": (f"{token} is the dielectric's temperature characteristic.",)}
    if (temperature := written.read_temperature(token)) is not None and "°" in token:
        return {"temperature": temperature}
    if "value" in found:
        return None
    return read_capacitance(token) or _read_bare(token)


def _read_bare(token: str) -> dict | None:
    """A number without unit: .047 is microfarads on film, 47 is picofarads on ceramics."""
    for pattern, power, name in ((_BARE_MICRO, -6, "µF"), (_BARE_PICO, -12, "pF")):
        match = pattern.fullmatch(token)
        if match is None or float(match[1]) == 0.0:
            continue
        value = float(f"{match[1]}e{power}")
        tolerance = capacitor_tolerance(match[2], value) if match[2] else None
        if match[2] and tolerance is None:
            continue
        found = {"value": value, "scheme": "number without unit"}
        found["notes"] = (f"“{match[1]}” has no unit; read as {name} (common practice).",)
        return found | ({"tolerance": tolerance} if tolerance else {})
    return None
