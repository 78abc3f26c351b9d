"""Miniature fuses, IEC 60127: characteristic, rated current, breaking capacity, rated voltage.

`T1AL250V`: time-lag, 1 A, low breaking capacity, 250 V. Letters from memory of IEC 60127-1 and -2.
"""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.decoding import Decoding

_MARK = re.compile(
    r"(?:(?P<characteristic>FF|F|TT|T|M) ?(?=[0-9.]))?"
    r"(?:(?P<current>[0-9]{1,4}(?:\.[0-9]{1,3})?|\.[0-9]{1,3}) ?(?P<unit>mA|MA|A)"
    r"|(?P<volts>[0-9]{2,4}) ?(?P<volt_unit>V ?(?:AC|~)?|~))"
    r"|(?P<bare_characteristic>FF|F|TT|T|M)(?P<bare_current>[0-9]{1,2}(?:\.[0-9]{1,3})?)"
    r"|(?P<letter>[LEH])"
)
_SKIP = re.compile(r"[\s/,;()-]+")
_END_OF_WORD = re.compile(r"[\s/,;()]")
CAPACITIES = {"E": 150.0, "H": 1500.0}  # A; L is 35 A or ten times the rated current


def decode_fuse(text: str) -> Decoding:
    plain = written.plain(text)
    found: dict = {"notes": ()}
    unread: list[str] = []
    at = 0
    while at < len(plain):
        if skip := _SKIP.match(plain, at):
            at = skip.end()
            continue
        match = _MARK.match(plain, at)
        if match and _takes(match, found, plain):
            at = match.end()
            continue
        word = _END_OF_WORD.split(plain[at:], maxsplit=1)[0]
        unread.append(word)
        at += len(word)
    return _decoding(text, found, unread)


def _takes(match: re.Match[str], found: dict, plain: str) -> bool:
    """Enter what the match says; False where it is out of place."""
    if match["letter"]:
        glued = plain[match.end() : match.end() + 1]
        if "current" not in found or "capacity" in found or glued.isalpha():
            return False
        found["capacity"] = match["letter"]
    elif match["volts"]:
        if "voltage" in found:
            return False
        found["voltage"] = float(match["volts"])
        found["voltage_kind"] = "ac" if "~" in match["volt_unit"] or "AC" in match[
            "volt_unit"] else None
    else:
        return _takes_current(match, found)
    return True


def _takes_current(match: re.Match[str], found: dict) -> bool:
    if "current" in found:
        return False
    if match["bare_current"]:
        found["current"] = float(match["bare_current"])
        found["notes"] += (f"“{match[0]}” has no A; the number is read as amperes.",)
    else:
        milli = match["unit"] in ("mA", "MA")
        found["current"] = float(f"{match['current']}e{-3 if milli else 0}")
    found["characteristic"] = match["characteristic"] or match["bare_characteristic"]
    return True


def _decoding(text: str, found: dict, unread: list[str]) -> Decoding:
    current = found.get("current")
    if found.get("characteristic") is None and len(unread) and unread[0] in ("T", "F", "FF", "TT"):
        found["characteristic"] = unread.pop(0)
    return Decoding(
        "fuse", text, current, "A", rated_voltage=found.get("voltage"),
        voltage_kind=found.get("voltage_kind"), rated_current=current,
        breaking_capacity=_breaking_capacity(found.get("capacity"), current),
        time_characteristic=found.get("characteristic"),
        scheme="IEC 60127" if current is not None else None,
        unread=" ".join(unread), notes=found["notes"],
    )  # fmt: skip


def _breaking_capacity(letter: str | None, current: float | None) -> float | None:
    if letter == "L" and current is not None:
        return max(35.0, 10.0 * current)
    return None if letter is None else CAPACITIES.get(letter)
