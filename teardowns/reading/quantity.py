"""Read one number with its unit and uncertainty, as a person writes it into a field.

Nothing is evaluated: the text either has one of the written forms below or is refused with an error
that says what to write instead. The printer is re-exported from `printing`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from teardowns.reading.bounds import split_bound
from teardowns.reading.near_values import OVERLOAD, remedy_for
from teardowns.reading.printing import print_interval, print_quantity
from teardowns.reading.units import (
    LETTER_POWERS,
    Scale,
    example_of,
    spellings_of,
    units_shown,
)

__all__ = ["QuantityError", "Reading", "print_interval", "print_quantity", "read_quantity"]

MAX_LENGTH = 64
MAX_EXPONENT = 30  # beyond any quantity of a charger; keeps 1e999 and 1e-999 from becoming ∞ and 0


class QuantityError(ValueError):
    """What is wrong with the text, in the user's words and with the remedy."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


@dataclass(frozen=True, slots=True)
class Reading:
    """A quantity in SI. `uncertainty` is in the same unit; its kind says what it means:

    standard   one standard uncertainty, written 10(1) mm (JCGM 100:2008, 7.2.2)
    interval   the half-width written after ±, its meaning left to the field
    tolerance  written as a percentage of the value after ±, here as absolute half-width

    With a `bound_kind` it is no value but a limit, on that side of which the quantity lies.
    """

    value: float
    uncertainty: float | None
    uncertainty_kind: str | None
    text: str
    bound_kind: str = ""


# One side of a ±: an ordinary number, or a letter for the decimal point (IEC 60062: 4k7, 2R2, n47),
# which is no exponent. Digits are ASCII only; every repeat is bounded by MAX_LENGTH.
_UNIT = r" ?(?P<unit>[^0-9+(), ±./:?…–—-][^0-9+(),±?…–—-]*[23]?)?"
_NUMBERED = re.compile(
    r"(?P<number>[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+))(?:[eE](?P<exponent>[+-]?[0-9]+))?"
    r"(?P<last_digits>\([0-9]{1,3}\))?" + _UNIT
)
_LETTERED = re.compile(
    r"(?P<whole>[+-]?[0-9]*)(?P<letter>[A-DF-Za-df-zµμΩ\u2126])(?P<rest>[0-9]+)" + _UNIT
)
_PARTS = ("number", "exponent", "last_digits", "whole", "letter", "rest", "unit")
_Side = Mapping[str, Any]
# By the writer's decimal mark: where the other one may stand between thousands.
_THOUSANDS = {
    mark: re.compile(rf"(?<![0-9.,])[+-]?[1-9][0-9]{{0,2}}[{other}][0-9]{{3}}(?![0-9.,])")
    for mark, other in ((".", ","), (",", "."))
}
_MARK_NAMES = {".": "point", ",": "comma"}
_BRACKETED = re.compile(r"\(([^()]*)\) ?([^()]*)")
_HOURS = re.compile(r"([0-9]{1,4}) ?h ?([0-5]?[0-9])(?: ?m(?:in)?)?")    # 1h30, 1 h 30 min, 1h30m
# 1:30 h, 1:30 min, 0:30:00; without its unit the first two are not told apart.
_CLOCK = re.compile(r"([0-9]{1,4}):([0-5][0-9])(?::([0-5][0-9])(?: ?h)?| ?(h|min))")
# As scopes print it: V or A, peak to peak; Vss in German.
_PEAK_TO_PEAK = re.compile(r"(?<=[VA]) ?(?:pp|p-p|pk-pk|pkpk|ss)(?![A-Za-z])")
_SPACES = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f\u2007\t", " ") | {"\u2212": "-"})


def read_quantity(text: str, unit: str, *, default_unit: str | None = None,
                  decimal_mark: str = ".", takes_bounds: bool = False,
                  takes_spread: bool = True, peak_to_peak: bool = False) -> Reading:
    """Read `text` as a quantity whose SI unit is `unit`.

    `default_unit` is the unit of a bare number (a spelling of `unit`, such as "µF" for "F").
    Both marks are read before decimals; the one that is not `decimal_mark`, the writer's own, is
    asked about where it may stand between thousands: 1,234, or 1.234 in a language with a comma.
    `takes_bounds` also reads a limit, “> 500 MΩ”, for who tells it from a value; without
    `takes_spread` no remedy names a ±; `peak_to_peak` says that the quantity is, so that Vpp is V.
    Raises QuantityError for anything that is not exactly one quantity.
    """
    if not isinstance(text, str) or not text.strip():
        raise QuantityError(f"Nothing is written here: write a value, {_for_example(unit)}.")
    if len(text) > MAX_LENGTH:
        raise QuantityError(
            f"This is longer than {MAX_LENGTH} characters: write one value, {_for_example(unit)}."
        )
    plain = " ".join(text.translate(_SPACES).split())
    if "±" not in plain and ("+/-" in plain or "+-" in plain):
        plain = plain.replace("+/-", "±").replace("+-", "±")
    if plain[0] == "(" and (bracketed := _BRACKETED.fullmatch(plain)):
        plain = f"{bracketed[1]} {bracketed[2]}"
    refuse_thousands(plain, decimal_mark)
    plain = _without_peaks(plain, unit, text, peak_to_peak)
    if takes_bounds and plain.upper() in OVERLOAD:
        number, _, own = example_of(unit).partition(" ")
        raise QuantityError(f"“{text}” stands for beyond the end of the scale: write that end as a "
                            f"limit, for example “> {number} {default_unit or own}”.")
    kind, rest = split_bound(plain)
    if kind:
        return _read_bound(kind, rest, unit, default_unit, text, takes_bounds)
    value_text, plus_minus, spread_text = plain.partition("±")
    if not plus_minus:
        try:
            return _read_alone(value_text, unit, default_unit, text)
        except QuantityError as error:
            near = remedy_for(plain, unit, text, takes_spread)
            raise QuantityError(near or error.message) from None
    return _read_with_spread(value_text.rstrip(), spread_text.lstrip(), unit, default_unit, text)


def refuse_thousands(text: str, decimal_mark: str = ".") -> None:
    """Raises QuantityError where a number of `text` may be in thousands or have three decimals."""
    found = _THOUSANDS[decimal_mark].search(text)
    if found:
        number = re.split("[.,]", found[0])
        raise QuantityError(
            f"“{found[0]}” can be read as {''.join(number)} or as {decimal_mark.join(number)}: "
            "write the one you mean, without a thousands separator and with a "
            f"{_MARK_NAMES[decimal_mark]} for decimals."
        )


def _without_peaks(plain: str, unit: str, text: str, peak_to_peak: bool) -> str:
    """“120 mVpp” as “120 mV” where the quantity is peak to peak; refused where it is not."""
    if unit not in ("V", "A") or not _PEAK_TO_PEAK.search(plain):
        return plain
    if not peak_to_peak:
        raise QuantityError(f"“{text}” is peak to peak, which this field does not take: write what "
                            f"its name asks for, {_for_example(unit)}.")
    return _PEAK_TO_PEAK.sub("", plain)


def _read_bound(kind: str, rest: str, unit: str, default_unit: str | None, text: str,
                takes_bounds: bool) -> Reading:
    if not takes_bounds:
        raise QuantityError(f"“{text}” is a limit, and a value is asked for here: write the value, "
                            "or leave this empty and put the limit into the note.")
    if "±" in rest or "(" in rest:
        raise QuantityError(f"“{text}” is a limit, which has no uncertainty: leave the ± out.")
    limit = _read_alone(rest, unit, default_unit, text)
    return Reading(limit.value, None, None, text, kind)


def _read_alone(plain: str, unit: str, default_unit: str | None, text: str) -> Reading:
    if unit == "s" and (hours := _HOURS.fullmatch(plain)):
        return Reading(3600.0 * int(hours[1]) + 60.0 * int(hours[2]), None, None, text)
    if unit == "s" and (clock := _CLOCK.fullmatch(plain)):
        return Reading(_seconds(clock), None, None, text)
    side = _match_side(plain, unit, text)
    scale = _scale_of(side, unit, default_unit, text)
    value = _in_si(side, scale, unit, text)
    if side["last_digits"] is None:
        return Reading(value, None, None, text)
    return Reading(value, _last_digits_in_si(side, scale, unit, text), "standard", text)


def _seconds(clock: re.Match[str]) -> float:
    first, second, third, named = clock.groups()
    if named == "min":
        return 60.0 * int(first) + int(second)
    return 3600.0 * int(first) + 60.0 * int(second) + int(third or 0)


def _read_with_spread(
    value_text: str, spread_text: str, unit: str, default_unit: str | None, text: str
) -> Reading:
    value_side = _match_side(value_text, unit, text)
    spread_side = _match_side(spread_text, unit, text)
    if value_side["last_digits"] or spread_side["last_digits"]:
        raise QuantityError(f"“{text}” states its uncertainty twice: keep one of ± and (…).")
    relative = spread_side["unit"] == "%" and not (unit in ("1", "%") and not value_side["unit"])
    if relative and value_side["unit"] == "%":
        raise QuantityError(
            f"“{text}” may mean percentage points or per cent of the value: "
            f"write “{value_side['number']} ± {spread_side['number']} %” for percentage points, "
            "or state both numbers without %."
        )
    # "5.1 ± 0.2 V": the unit at the end belongs to both numbers.
    shared = default_unit if relative else spread_side["unit"] or default_unit
    value_scale = _scale_of(value_side, unit, shared, text)
    value = _in_si(value_side, value_scale, unit, text)
    spread_scale = Scale(0) if relative else _spread_scale(
        spread_side, value_side, value_scale, unit, text
    )
    spread = _in_si(spread_side, spread_scale, unit, text)
    if spread <= 0.0:
        raise QuantityError(
            f"The uncertainty in “{text}” must be greater than zero: leave it out if not known."
        )
    if relative:
        return Reading(value, abs(value) * spread / 100.0, "tolerance", text)
    return Reading(value, spread, "interval", text)


def _spread_scale(spread_side, value_side, value_scale: Scale, unit: str, text: str) -> Scale:
    """The unit after the ±, or the value's own where none stands there."""
    if spread_side["unit"] is None and spread_side["letter"] is None:
        return value_scale
    return _scale_of(spread_side, unit, value_side["unit"], text)


def _match_side(plain: str, unit: str, text: str) -> _Side:
    """The parts of one side, None where they are not written.

    “2u2” is a letter between digits before it is a unit with an exponent, as in “6 mm2”.
    """
    lettered = _LETTERED.fullmatch(plain)
    side = lettered if lettered and lettered["letter"] in LETTER_POWERS.get(unit, ()) else \
        _NUMBERED.fullmatch(plain) or lettered
    if side is None:
        raise _why_unreadable(plain, unit, text)
    return dict.fromkeys(_PARTS) | side.groupdict()


def _scale_of(side: _Side, unit: str, default_unit: str | None, text: str) -> Scale:
    """Power of ten and factor of the unit written on this side."""
    spelled = side["unit"]
    if side["letter"] is not None:
        return _embedded_scale(side, unit, text)
    if spelled is None:
        if default_unit is not None:
            return _spelled_scale(default_unit, unit, text)
        if unit == "1":
            return Scale(0)
        raise QuantityError(f"“{text}” has no unit: write {units_shown(unit)}, "
                            f"{_for_example(unit)}.")
    return _spelled_scale(spelled.rstrip(), unit, text)


def _spelled_scale(spelled: str, unit: str, text: str) -> Scale:
    scale = spellings_of(unit).get(spelled)
    if scale is not None:
        return scale
    if (power := LETTER_POWERS.get(unit, {}).get(spelled)) is not None:
        return Scale(power)
    raise QuantityError(
        f"“{spelled}” in “{text}” is not a unit of this field: write {units_shown(unit)}, "
        f"{_for_example(unit)}."
    )


def _embedded_scale(side: _Side, unit: str, text: str) -> Scale:
    """4u7, 0R22, 5V1: the letter is decimal point and prefix or unit at once."""
    letter, spelled = side["letter"], side["unit"]
    power = LETTER_POWERS.get(unit, {}).get(letter)
    if power is None:
        raise QuantityError(
            f"“{letter}” in “{text}” does not fit this field: write {units_shown(unit)}, "
            f"{_for_example(unit)}."
        )
    if spelled is not None and _spelled_scale(spelled.rstrip(), unit, text) != Scale(0):
        raise QuantityError(f"“{text}” names its prefix twice: {_for_example(unit)}.")
    return Scale(power)


def _in_si(side: _Side, scale: Scale, unit: str, text: str) -> float:
    """The decimal text shifted by the prefix, so that 4.7 µF is 4.7e-6 and not 4.7 × 1e-6."""
    if side["letter"] is not None:
        digits, exponent = f"{side['whole']}.{side['rest']}", 0
    else:
        digits, exponent = side["number"].replace(",", "."), _exponent(side, text)
    value = float(f"{digits}e{exponent + scale.power}") * scale.factor
    if not isfinite(value):
        raise QuantityError(f"“{text}” is too large for any quantity here: {_for_example(unit)}.")
    return value


def _exponent(side: _Side, text: str) -> int:
    written = side["exponent"]
    if written is None:
        return 0
    if len(written) > 4 or abs(int(written)) > MAX_EXPONENT:
        raise QuantityError(
            f"The exponent in “{text}” is out of range: use −{MAX_EXPONENT} to {MAX_EXPONENT}."
        )
    return int(written)


def _last_digits_in_si(side: _Side, scale: Scale, unit: str, text: str) -> float:
    """10.23(12): the bracket counts units of the last digit (JCGM 100:2008, 7.2.2)."""
    decimals = len(side["number"].replace(",", ".").partition(".")[2])
    power = _exponent(side, text) + scale.power - decimals
    value = float(f"{side['last_digits'][1:-1]}e{power}") * scale.factor
    if value <= 0.0:
        raise QuantityError(
            f"The uncertainty in “{text}” must be greater than zero: leave it out if not known."
        )
    return value


def _why_unreadable(plain: str, unit: str, text: str) -> QuantityError:
    """The most helpful reason why this is not one quantity."""
    lowered = plain.lower()
    if not plain:
        reason = "a number is missing beside ±"
    elif "_" in plain:
        reason = "underscores do not belong into a number"
    elif any(c.isdigit() and not ("0" <= c <= "9" or c in "²³") for c in plain):
        reason = "only the digits 0 to 9 are read"
    elif "nan" in lowered or "inf" in lowered or not any("0" <= c <= "9" for c in plain):
        reason = "there is no number in it"
    elif re.search(r"[0-9] [0-9]", plain):
        reason = "a number is written without spaces inside"
    elif len(re.findall(r"[.,]", plain)) > 1:
        reason = "a number has at most one decimal mark and no thousands separators"
    elif "±" in plain:
        reason = "only one ± can be read"
    else:
        reason = "this is not one number followed by its unit"
    return QuantityError(f"“{text}” cannot be read: {reason}. Write one value, "
                         f"{_for_example(unit)}.")


def _for_example(unit: str) -> str:
    return f"for example “{example_of(unit)}”"
