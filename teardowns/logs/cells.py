"""One cell of a log → one float, or why not.

Strict on purpose: what Python's float() would also take (nan, inf, 1_000, digits of other
scripts) is refused, for a value that the instrument did not write must never be stored. A blank
is missing (NaN). So is a run of dashes, which meters write while they have no reading. "OL" is
refused: over range is a reading (more than the range), and a blank would hide a peak.
"""
from __future__ import annotations

import math
import re
from functools import lru_cache

from teardowns.logs.clock_times import seconds_of
from teardowns.logs.layout import Layout
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import TIME

BLANKS = " \t\u00a0\u202f\u2009"
_GROUPS = {"": "", " ": "[ \u00a0\u202f\u2009]", "'": "['\u2019]", ".": r"\.", ",": ","}
_DASHES = re.compile(r"-{2,}")
_OVER_RANGE = re.compile(r"[+-]?(OL|OVL|OVER|0L|O\.L|OVERLOAD|OVERFLOW|OVERRANGE|OVER RANGE|"
                         r"OFL|UL|UNDERRANGE|UNDERFLOW)", re.IGNORECASE)
_NOT_A_NUMBER = re.compile(r"[+-]?(nan|inf|infinity|∞|n/?a|null|none|1\.#\w+)", re.IGNORECASE)
_UNIT_INSIDE = re.compile(r"[+-]?[0-9][0-9.,' ]*(e[+-]?[0-9]+)?\s*(?!e$)[a-zA-Z°µμΩ%]{1,4}",
                          re.IGNORECASE)
_DATE = re.compile(r"[0-9]{1,2}[-. ][A-Za-zäéûç]{3,9}\.?([-. ][0-9]{2,4})?|"
                   r"[A-Za-z]{3}-[0-9]{2,4}|[0-9]{1,4}[-/][0-9]{1,2}([-/][0-9]{1,4})?")


def number(cell: str, layout: Layout) -> float:
    """The number that a cell holds; NaN for a blank. Raises RefusedLog without a place."""
    text = cell.strip(BLANKS)
    if not text or _DASHES.fullmatch(text):
        return math.nan
    if not _pattern(layout.decimal, layout.thousands).fullmatch(text):
        raise _refused(text, layout)
    plain = re.sub(_GROUPS[layout.thousands], "", text) if layout.thousands else text
    return _within_range(text, float(plain.replace(layout.decimal, ".")))


def seconds(cell: str, layout: Layout) -> float:
    """Seconds of a clock or of a date and time; NaN for a blank."""
    text = cell.strip(BLANKS)
    if not text or _DASHES.fullmatch(text):
        return math.nan
    return seconds_of(text, layout.date_order, minutes_first=_minutes_first(layout))


def _minutes_first(layout: Layout) -> bool:
    """A clock column in minutes counts minutes and seconds: 03:04 is 184 s."""
    return any(column.role == TIME and column.unit == "min" for column in layout.columns)


@lru_cache(maxsize=32)
def _pattern(decimal: str, thousands: str) -> re.Pattern[str]:
    mark, group = re.escape(decimal), _GROUPS[thousands]
    whole = f"(?:[1-9][0-9]{{0,2}}(?:{group}[0-9]{{3}})+|[0-9]+)" if group else "[0-9]+"
    return re.compile(f"[+-]?(?:{whole}(?:{mark}[0-9]*)?|{mark}[0-9]+)(?:[eE][+-]?[0-9]+)?")


def _within_range(text: str, value: float) -> float:
    if math.isinf(value):
        raise RefusedLog("too_large", f"{_quoted(text)} is larger than any number that can be "
                         "kept. Check the exponent.")
    if value == 0 and re.search("[1-9]", re.split("[eE]", text)[0]):
        raise RefusedLog("too_small", f"{_quoted(text)} is so small that it would be kept as 0. "
                         "Check the exponent.")
    return value


def _refused(text: str, layout: Layout) -> RefusedLog:
    code, says = _reason(text[:80], layout)
    return RefusedLog(code, f"{_quoted(text)} {says}")


def _reason(text: str, layout: Layout) -> tuple[str, str]:
    if text.startswith("#"):
        return "spreadsheet_error", ("is an error of a spreadsheet. Export from the instrument, "
                                     "or leave the cell blank.")
    if _OVER_RANGE.fullmatch(text):
        return "over_range", ("says that the meter was out of range, which is no number. Set the "
                              "column to “not used”, or add the log from before that line.")
    if _NOT_A_NUMBER.fullmatch(text):
        return "not_a_number", "is no number. Leave the cell blank where nothing was read."
    if re.match("[\u2212\u2010-\u2015\ufe63\uff0d]", text):
        return "minus_sign", "is written with a typographic minus. Use the plain sign “-”."
    if any(c.isnumeric() and not "0" <= c <= "9" for c in text):
        return "other_digits", "is written with digits other than 0 to 9. Export with plain digits."
    if "_" in text:
        return "digit_underscore", "has an underscore between its digits. Export without it."
    if re.fullmatch("[+-]?0[xX][0-9a-fA-F]+", text):
        return "hexadecimal", "is hexadecimal. Export decimal numbers."
    if _DATE.fullmatch(text):
        return "spreadsheet_date", ("is a date where a number is expected: a spreadsheet may have "
                                    "made one of it. Export from the instrument again.")
    if _marks_only(text):
        return "decimal_mark", _about_marks(layout)
    if _UNIT_INSIDE.fullmatch(text):
        return "unit_inside", "has a unit inside the cell. Export numbers alone, units in headings."
    return "text", "is not a number. Leave the cell blank, or set the column to “not used”."


def _marks_only(text: str) -> bool:
    return re.fullmatch("[+-]?[0-9.,'\u2019 \u00a0\u202f]*[0-9][0-9.,' ]*(?:[eE][+-]?[0-9]+)?",
                        text) is not None


def _about_marks(layout: Layout) -> str:
    decimal = {".": "point", ",": "comma"}[layout.decimal]
    groups = f" and groups of three set apart by “{layout.thousands}”" if layout.thousands else ""
    return (f"does not fit a log with a decimal {decimal}{groups}. Choose the other mark, or "
            "export with one mark throughout.")


def _quoted(text: str) -> str:
    shown = "".join(c if c.isprintable() else "?" for c in text[:24])
    return f"“{shown}{'…' if len(text) > 24 else ''}”"
