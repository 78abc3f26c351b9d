"""Inductors: three digits in µH, R or N as the decimal point, colour bands in µH, or spelled out.

IEC 60062 gives the code; that it counts microhenries is common practice, no source.
"""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.colour_bands import colour_names, read_bands
from teardowns.reading.markings.decoding import Decoding, OtherReading
from teardowns.reading.markings.three_digit import read_digits
from teardowns.reading.markings.tolerance import LETTERS, read_percent, tolerance_of

_CODE = re.compile(rf"([0-9]{{3}})([{LETTERS}])?")
_POINT = re.compile(rf"([0-9]{{0,3}})([RN])([0-9]{{1,2}})([{LETTERS}])?")


def decode_inductor(text: str) -> Decoding:
    bands = colour_names(text)
    if bands is not None and (read := read_bands(bands, -6)) is not None:
        return Decoding("inductor", text, read[0], "H", (-read[1], read[1]), scheme="colour bands")
    found: dict = {}
    unread: list[str] = []
    for token in written.tokens(written.plain(text)):
        if "value" not in found and (value := _read_value(token)):
            found |= value
        elif (percent := read_percent(token)) is not None:
            found.setdefault("tolerance", percent)
        elif (current := written.read_written(token, "A")) is not None:
            found.setdefault("rated_current", current)
        else:
            unread.append(token)
    return Decoding("inductor", text, unit="H", unread=" ".join(unread), **found)


def _read_value(token: str) -> dict | None:
    if (spelled := written.read_written(token, "H")) is not None:
        return {"value": spelled, "scheme": "written"}
    if match := _POINT.fullmatch(token):
        power = -6 if match[2] == "R" else -9
        value = float(f"{match[1] or 0}.{match[3]}e{power}")
        return {"value": value, "scheme": f"{match[2]} as decimal point", **_tolerance(match[4])}
    match = _CODE.fullmatch(token)
    if match is None:
        return None
    henries = read_digits(match[1], -6)
    found = {"value": henries, "scheme": "three digits", **_tolerance(match[2])}
    if match[1][2] == "0":
        why = "if the number is printed in µH without a multiplier"
        found["others"] = (OtherReading(float(f"{match[1]}e-6"), "H", "plain microhenries", why),)
    return found


def _tolerance(letter: str | None) -> dict:
    return {"tolerance": tolerance_of(letter)} if letter else {}
