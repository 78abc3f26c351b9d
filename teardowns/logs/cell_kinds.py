"""What a cell of a log looks like before anybody knows how it is to be read."""
from __future__ import annotations

import re

from teardowns.logs.cells import BLANKS
from teardowns.logs.clock_times import is_clock

BLANK, NUMBER, CLOCK, LOOSE, BAD, TEXT = "blank", "number", "clock", "loose", "bad", "text"
_MANTISSA = (r"(?:[1-9][0-9]{0,2}(?:[.,' \u00a0\u202f\u2009\u2019][0-9]{3})+(?:[.,][0-9]+)?|"
             r"[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)")
_NUMBER = re.compile(rf"[+-]?{_MANTISSA}(?:[eE][+-]?[0-9]+)?")
# A number that reading will refuse and name: it still shows where the table stands.
_LOOSE = re.compile(r"[+\-\u2212\u2013]?[.,]?\d.*")
_BAD = re.compile(r"[+-]?(-+|#\S*|OL|O\.L|0L|OVER.*|UL|NaN|inf(inity)?|n/?a|null|none|error)",
                  re.IGNORECASE)


def kind_of(cell: str) -> str:
    cell = cell.strip(BLANKS)
    if not cell:
        return BLANK
    if _NUMBER.fullmatch(cell):
        return NUMBER
    if is_clock(cell):
        return CLOCK
    if _BAD.fullmatch(cell):
        return BAD
    return LOOSE if _LOOSE.fullmatch(cell) else TEXT
