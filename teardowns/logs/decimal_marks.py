"""Decimal point or comma: what the cells of a table decide, and whether they leave it open.

One cell decides that cannot be read otherwise: "12,5" has no group of three behind its mark,
"0.125" no figure before it, "1.234,5" has both marks. "1.234" alone can be either.
"""
from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from itertools import pairwise

from teardowns.logs.cells import BLANKS

_BLANK_GROUPS = re.compile("[0-9][ \u00a0\u202f\u2009][0-9]")
# Cells of one shape decide alike: every digit but 0 is written as 1.
_SHAPE = str.maketrans("23456789", "11111111")
_OPEN = re.compile(r"[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}")
_BOTH = re.compile(r"[0-9][.,'\u2019 \u00a0\u202f\u2009][0-9]{3}[.,'\u2019 \u00a0\u202f\u2009]")


@dataclass(frozen=True, slots=True)
class Marks:
    possible: tuple[str, ...]         # "." "," : one alone is certain
    sample: str = ""                  # a cell that can be read in two ways, or clashes
    mixed: bool = False               # both marks are seen as decimal marks


def find_marks(columns: Sequence[Sequence[str]], times: Sequence[str] = ()) -> Marks:
    """Decimal marks that fit the numbers of all columns; times: the column that must ascend."""
    shapes = [{cell.translate(_SHAPE) for cell in column} for column in columns]
    decided = {mark for column in shapes for shape in column if (mark := _decimal_of(shape))}
    decided |= {mark for column in shapes if (mark := _by_long_wholes(column))}
    if len(decided) > 1:
        return Marks((".", ","), _first(
            columns, lambda cell: "," in cell or _decimal_of(cell) == ","), mixed=True)
    if decided:
        return _decided(columns, shapes, decided.pop())
    if not any(is_open(shape) for column in shapes for shape in column):
        return Marks((".",))
    rising = tuple(mark for mark in ".," if len(times) > 2 and _rises(times, mark))
    return Marks(rising if len(rising) == 1 else (".", ","), _first(columns, is_open))


def _decided(columns: Sequence[Sequence[str]], shapes: Sequence[set[str]], mark: str) -> Marks:
    """Cells like "5,012" in a log with 0.5 are thousands only if other cells group in threes."""
    other = "," if mark == "." else "."
    strange = any(other in shape and is_open(shape) for column in shapes for shape in column)
    if not strange or any(_BOTH.search(shape) for column in shapes for shape in column):
        return Marks((mark,))
    return Marks((mark, other), _first(columns, lambda cell: other in cell and is_open(cell)))


def is_open(cell: str) -> bool:
    """Whether a cell can be read with either mark: "1.234"."""
    return _OPEN.fullmatch(cell.strip(BLANKS)) is not None


def thousands_of(columns: Sequence[Sequence[str]], decimal: str) -> str:
    """The mark between groups of three, as far as these numbers show one."""
    other = "," if decimal == "." else "."
    for cell in sorted({cell.translate(_SHAPE) for column in columns for cell in column}):
        whole = re.split("[eE]", cell)[0].split(decimal)[0]
        if other in whole:
            return other
        if "'" in whole or "\u2019" in whole:
            return "'"
        if _BLANK_GROUPS.search(whole):
            return " "
    return ""


def as_number(cell: str, decimal: str) -> float | None:
    """How a cell reads under a decimal mark, groups taken out; to compare readings only."""
    if decimal == "." and cell.isascii():
        with suppress(ValueError):
            return float(cell)
    other = "," if decimal == "." else "."
    plain = re.sub("[ \u00a0\u202f\u2009'\u2019]", "", cell.strip(BLANKS)).replace(other, "")
    try:
        return float(plain.replace(decimal, "."))
    except ValueError:
        return None


def _decimal_of(cell: str) -> str:
    """The mark that can only be a decimal mark here, or "" where the cell leaves it open."""
    mantissa = re.split("[eE]", cell.strip(BLANKS).lstrip("+-"))[0]
    points, commas = mantissa.count("."), mantissa.count(",")
    if points and commas:
        return max(".,", key=mantissa.rfind)
    if points + commas == 0:
        return ""
    mark = "." if points else ","
    if points + commas > 1:             # groups of three, or no number at all: "5.09.2"
        grouped = all(len(group) == 3 for group in mantissa.strip(BLANKS).split(mark)[1:])
        return ("," if mark == "." else ".") if grouped else ""
    return "" if is_open(cell) else mark


def _by_long_wholes(column: Iterable[str]) -> str:
    """A column with 12345 beside 1.234 sets no groups apart, so its mark is a decimal mark."""
    marks = {cell.strip("+-0123456789 ") for cell in column if _OPEN.fullmatch(cell)}
    wholes = any(re.fullmatch("[+-]?[1-9][0-9]{3,}", cell) for cell in column)
    return marks.pop() if wholes and len(marks) == 1 else ""


def _rises(column: Sequence[str], mark: str) -> bool:
    values = [as_number(cell, mark) for cell in column]
    return all(a is not None and b is not None and a < b for a, b in pairwise(values))


def _first(columns: Sequence[Sequence[str]], fits: Callable[[str], bool]) -> str:
    return next(cell for column in columns for cell in column if fits(cell))
