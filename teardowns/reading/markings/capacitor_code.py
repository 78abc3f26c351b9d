"""A capacitance: three digits in pF, RKM, or spelled out, with tolerance and voltage glued on."""

from __future__ import annotations

import re

from teardowns.reading.markings import written
from teardowns.reading.markings.decoding import OtherReading
from teardowns.reading.markings.rkm import CAPACITOR_POWERS, read_rkm
from teardowns.reading.markings.three_digit import read_digits
from teardowns.reading.markings.tolerance import LETTERS, capacitor_tolerance
from teardowns.reading.markings.voltage_code import read_voltage_code

_CODE = re.compile(
    rf"(?P<before>[0-3][A-HJKNVW])?(?P<digits>[0-9]{{3}})(?P<tolerance>[{LETTERS}])?"
    r"(?P<after>[0-3][A-HJKNVW])?(?P<volts>[0-9]{2,4})?(?P<unit>V)?"
)
_POINT_R = re.compile(rf"([0-9]{{0,2}}R[0-9]{{1,2}})([{LETTERS}])?")
_RKM_VOLTS = re.compile(rf"(.*[pnuµm][0-9]*[{LETTERS}])([0-9]{{2,4}})V?")


def read_capacitance(token: str) -> dict | None:
    """Fields of a Decoding that one token yields, or None where it is no capacitance."""
    for read in (_read_three_digit, _read_spelled, _read_rkm, _read_point_r):
        if (found := read(token)) is not None:
            return found
    return None


def _read_three_digit(token: str) -> dict | None:
    match = _CODE.fullmatch(token)
    if match is None or (match["unit"] and not match["volts"]):
        return None
    if match["volts"] and not match["tolerance"]:
        return None  # 104630 is no code; 104J630 is
    farads = read_digits(match["digits"], -12, ceramic=True)
    if farads is None:
        return None
    others = _others(match["digits"], farads, alone=match["digits"] == token)
    found = {"value": farads, "scheme": "three digits", "others": others}
    found |= _with_tolerance(match["tolerance"], farads)
    code = match["before"] or match["after"]
    if code and (volts := read_voltage_code(code)) is not None:
        found |= {"rated_voltage": volts, "voltage_kind": "dc"}
    elif match["volts"]:
        found["rated_voltage"] = float(match["volts"])
    return found


def _others(digits: str, farads: float, *, alone: bool) -> tuple[OtherReading, ...]:
    """A lone number might also sit on another kind of part; with a letter it is a capacitor's."""
    others = []
    if digits[2] == "0":
        why = "if the number is printed in pF without a multiplier, as on some older ceramics"
        others.append(OtherReading(float(f"{digits}e-12"), "F", "plain picofarads", why))
    if alone and (ohms := read_digits(digits, 0)) is not None:
        why = "if the part is a resistor: digits × 10ⁿ Ω"
        others.append(OtherReading(ohms, "Ω", "three digits", why))
    return tuple(other for other in others if other.value != farads)


def _with_tolerance(letter: str | None, farads: float) -> dict:
    return {"tolerance": capacitor_tolerance(letter, farads)} if letter else {}


def _read_rkm(token: str) -> dict | None:
    glued = _RKM_VOLTS.fullmatch(token)
    read = read_rkm(glued[1] if glued else token, CAPACITOR_POWERS)
    if read is None or (read[1] and read[1] not in LETTERS):
        return None
    found = {"value": read[0], "scheme": "RKM"}
    if read[1] == "F":
        found["notes"] = ("The F may stand for farad or for ±1 %; no tolerance is taken from it.",)
    else:
        found |= _with_tolerance(read[1] or None, read[0])
    if glued:
        found["rated_voltage"] = float(glued[2])
    return found


def _read_point_r(token: str) -> dict | None:
    """`2R2C`: R is the decimal point of picofarads on small ceramics (from memory)."""
    match = _POINT_R.fullmatch(token)
    if match is None:
        return None
    farads = float(f"0{match[1].replace('R', '.')}e-12")
    return {"value": farads, "scheme": "R as decimal point", **_with_tolerance(match[2], farads)}


def _read_spelled(token: str) -> dict | None:
    letter = token[-1:] if token[-1:] in LETTERS and token[-1:] != "F" else ""
    value = written.read_written(token.removesuffix(letter) if letter else token, "F")
    if value is None:
        return None
    return {"value": value, "scheme": "written", **_with_tolerance(letter or None, value)}
