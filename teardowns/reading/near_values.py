"""What people write that is nearly a value, each with what to write instead."""

from __future__ import annotations

import re
from decimal import Decimal

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_TAIL = r"(?: ?([^0-9 ].*))?"                     # a unit, as it was typed
_RANGE = re.compile(rf"({_NUMBER}) ?((?!e-)[^0-9 .…/–—-]*) ?(?:-|–|—|\.\.+|…|to|bis) ?({_NUMBER})"
                    r"(?: ?([^0-9 -][^0-9-]*[23]?))?", re.IGNORECASE)
_ABOUT = re.compile(
    r"(?:[~≈≃∼]|(?:ca|circa|approx|approximately|about|around|roughly|etwa|ungefähr)\b\.?) ?"
    r"([0-9.,].*)", re.IGNORECASE)
_ASKED = re.compile(r"([0-9.,][^?]*?) ?\?+")
_FRACTION = re.compile(rf"(?:([0-9]+) )?([0-9]+) ?/ ?([0-9]+){_TAIL}")
_VULGAR = re.compile(rf"([0-9]*) ?([½¼¾⅓⅔⅛]){_TAIL}")
_PARTS = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3), "⅛": (1, 8)}
_DIVISORS = {2, 3, 4, 8, 16, 32, 64}              # 12/24 V names two values and is no half
_NOTHING = re.compile(
    r"n/a|n\.? ?a\.?|none|unknown|nothing|tbd|\?+|-+|–+|—+|x+|unbekannt|nichts|not readable|"
    r"not looked|not measured", re.IGNORECASE)
OVERLOAD = {"OL", "O.L", "0L", "0.L", "OVLD", "OVER"}      # what meters show, from memory
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])")


def remedy_for(plain: str, unit: str, text: str, takes_spread: bool = True) -> str:
    """What is written and what to write in its place; "" if that is not known.

    plain : `text` with plain spaces and signs; unit : SI; takes_spread : whether a ± is kept
    """
    if _NOTHING.fullmatch(plain):
        return (f"“{text}” is no value: leave this empty, and choose “Not looked” or “Not "
                "readable” where a state is asked for.")
    if plain.upper() in OVERLOAD:
        return (f"“{text}” stands for beyond the end of the scale: leave this empty, and put that "
                "end into the note.")
    if unit == "s" and (clock := _CLOCK.fullmatch(plain)):
        whole = 60 * int(clock[1]) + int(clock[2])
        return (f"“{text}” can be hours and minutes or minutes and seconds: write "
                f"“{whole} min” or “{whole} s”.")
    return _of_range(plain, text, takes_spread) or _of_estimate(plain, text, takes_spread) \
        or _of_fraction(plain, text)


def _of_range(plain: str, text: str, takes_spread: bool) -> str:
    found = _RANGE.fullmatch(plain)
    if not found:
        return ""
    low, high = sorted(map(_number, (found[1], found[3])))
    if not takes_spread:
        return (f"“{text}” is a range, and one value is kept here: write that value, or leave this "
                "empty and put both ends into the note.")
    if found[2] and found[2] != (found[4] or ""):     # 900 mA to 1.2 A: no sum of two units
        return f"“{text}” is a range: write its middle, and half of its width after ±."
    middle, half = (_typed(each / 2, plain) for each in (low + high, high - low))
    written = f"{middle} ± {half} {found[4] or ''}".rstrip()
    return f"“{text}” is a range: write its middle with half of its width, “{written}”."


def _of_estimate(plain: str, text: str, takes_spread: bool) -> str:
    found = _ABOUT.fullmatch(plain) or _ASKED.fullmatch(plain)
    if not found:
        return ""
    rest = found[1].strip()
    if takes_spread:
        return (f"“{text}” is an estimate: write how far off it may be, for example "
                f"“{rest} ± 10 %”.")
    return f"“{text}” is an estimate: write “{rest}”, and say in the note that it is one."


def _of_fraction(plain: str, text: str) -> str:
    if found := _VULGAR.fullmatch(plain):
        whole, (over, under), tail = found[1], _PARTS[found[2]], found[3]
    elif found := _FRACTION.fullmatch(plain):
        whole, over, under, tail = found[1], int(found[2]), int(found[3]), found[4]
        if under not in _DIVISORS or over >= under:
            return f"“{text}” names more than one value: write one of them here."
    else:
        return ""
    value = int(whole or 0) + Decimal(over) / under
    written = f"{_typed(value, plain)} {tail or ''}".rstrip()
    return f"“{text}” is a fraction: write “{written}”."


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def _typed(value: Decimal, plain: str) -> str:
    """With the mark that was typed."""
    shown = f"{Decimal(f'{value:.9g}').normalize():f}"
    return shown.replace(".", ",") if "," in plain and "." not in plain else shown
