"""Print a quantity rounded to what is known of it, with an engineering prefix.

Everything inside one quantity is joined by U+202F, so that no line breaks between number and unit.
"""

from __future__ import annotations

from math import inf, isfinite, isnan

from teardowns.reading.units import LADDERS, Step

NARROW_SPACE = "\u202f"
MINUS = "\u2212"
UNKNOWN = "unknown"
_MOST_DECIMALS = 9  # longer numbers are printed with an exponent


def print_quantity(
    value: float | None, unit: str, *, uncertainty: float | None = None, digits: int = 3
) -> str:
    """`15.2 ± 0.3 µF`: value in SI `unit`, rounded to its uncertainty or to `digits` digits.

    The uncertainty keeps two digits if its first is 1, else one; JCGM 100:2008, 7.2.6 allows at
    most two. None and NaN are printed as "unknown", never as zero.
    """
    if value is None or isnan(value):
        return UNKNOWN
    if not isfinite(value):
        return _with_unit("∞" if value > 0 else f"{MINUS}∞", _step(0.0, unit).symbol)
    if uncertainty is not None and isfinite(uncertainty) and uncertainty > 0:
        return _print_with_uncertainty(value, uncertainty, unit)
    step = _step(_rounded(value, digits), unit)
    return _with_unit(_significant(value, step, digits), step.symbol)


def print_interval(low: float, high: float, unit: str, *, digits: int = 3) -> str:
    """`13.1 to 16.7 W`, both ends in the unit that suits the larger; an open end becomes words."""
    if isnan(low) or isnan(high) or (low == -inf and high == inf):
        return UNKNOWN
    if low > high:
        raise ValueError(f"the interval's lower end {low} lies above its upper end {high}")
    if high == inf:
        return f"at least {print_quantity(low, unit, digits=digits)}"
    if low == -inf:
        return f"at most {print_quantity(high, unit, digits=digits)}"
    step = _step(_rounded(max(abs(low), abs(high)), digits), unit)
    decimals = digits - 1 - _exponent(max(abs(low), abs(high)) / _size(step), digits)
    ends = [_interval_end(end / _size(step), decimals) for end in (low, high)]
    return _with_unit(f"{ends[0]} to {ends[1]}", step.symbol)


def _interval_end(number: float, decimals: int) -> str:
    """At the common decimals, but never fewer than two digits of a number that is not zero."""
    own = 1 - _exponent(number, 2) if number else 0
    return _fixed(number, max(decimals, own))


def _print_with_uncertainty(value: float, uncertainty: float, unit: str) -> str:
    kept = _kept_digits(uncertainty)
    place = _exponent(uncertainty, kept) - kept + 1
    rounded = round(value, -place)
    step = _step(max(abs(rounded), round(uncertainty, -place)), unit)
    if step.factor == 1.0:
        decimals = step.power - place
    else:
        spread = uncertainty / step.factor
        decimals = _kept_digits(spread) - 1 - _exponent(spread, _kept_digits(spread))
    number = _fixed(value / _size(step), decimals)
    doubt = _fixed(uncertainty / _size(step), decimals)
    return _with_unit(f"{number}{NARROW_SPACE}±{NARROW_SPACE}{doubt}", step.symbol)


def _kept_digits(uncertainty: float) -> int:
    return 2 if f"{uncertainty:.1e}"[0] == "1" else 1


def _significant(value: float, step: Step, digits: int) -> str:
    number = value / _size(step)
    if number == 0.0:
        return "0"
    return _fixed(number, digits - 1 - _exponent(number, digits))


def _fixed(number: float, decimals: int) -> str:
    """A plain decimal number with a real minus sign, or with an exponent where it would be long."""
    if decimals > _MOST_DECIMALS or abs(number) >= 1e9:
        kept = max(_exponent(number, 1) + decimals, 0) if number else 0
        text = f"{number:.{kept}e}".replace("e+0", "e").replace("e-0", "e-").replace("e+", "e")
    elif decimals >= 0:
        text = f"{number:.{decimals}f}"
    else:
        text = f"{round(number, decimals):.0f}"
    if text[0] == "-":
        text = MINUS + text[1:] if any(c in "123456789" for c in text) else text[1:]
    return text


def _exponent(number: float, digits: int) -> int:
    """Power of ten of the first digit after rounding to `digits`."""
    return int(f"{number:.{digits - 1}e}".partition("e")[2])


def _rounded(value: float, digits: int) -> float:
    return float(f"{value:.{digits - 1}e}")


def _size(step: Step) -> float:
    return 10.0**step.power * step.factor


def _step(value: float, unit: str) -> Step:
    """The largest unit of the ladder that the rounded value reaches."""
    ladder = LADDERS.get(unit) or (Step(0.0, "" if unit == "1" else unit, 0),)
    if value == 0.0:
        plain = (step for step in ladder if step.symbol == unit and step.threshold == 1.0)
        return next(plain, ladder[0]) if unit not in ("m", "kg", "m²", "m³") else ladder[0]
    reached = [step for step in ladder if abs(value) >= step.threshold * (1 - 1e-12)]
    return reached[-1] if reached else ladder[0]


def _with_unit(number: str, symbol: str) -> str:
    return f"{number}{NARROW_SPACE}{symbol}" if symbol else number
