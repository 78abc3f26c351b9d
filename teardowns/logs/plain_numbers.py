"""Lines that hold numbers alone, all at once; whatever is doubtful is left to rows.py."""
from __future__ import annotations

import io
import re
from collections.abc import Sequence

import numpy as np

from teardowns.logs.layout import Layout
from teardowns.logs.limits import LONGEST_CELL

_FIGURES = b"0123456789+-eE."
_BLANKS = b" "
# A number this small may be too small for a float, which would keep it as 0.
_TINY = re.compile(rb"[eE]-0*[1-9][0-9][0-9]")
_BLANK = b"nan"              # safe: the text was seen to hold no letters but e and E


def plain_table(text: bytes, layout: Layout) -> np.ndarray | None:
    """text : whole lines, "\\n" at their ends → (lines, columns), NaN = blank.

    None where anything needs a second look: a letter, a quote, a group mark, an empty line, a line
    with another number of cells, a long cell, a number too large or too small for a float.
    """
    if layout.separator == layout.decimal or not _is_plain(text, layout):
        return None
    if not text.strip() or text.startswith(b"\n") or b"\n\n" in text:
        return None
    if _has_long_cell(text, layout.separator):
        return None
    table = _loaded(_with_point(text, layout.decimal), layout.separator)
    return None if table is None else _checked(table, text, layout)


def plain_column(cells: Sequence[str], layout: Layout) -> np.ndarray | None:
    """(n,) of cells that are plain numbers or empty; None where one of them is not."""
    text = "\n".join(cells).encode("ascii", "replace")
    if not _is_plain(text, layout):
        return None
    plain = _with_point(text, layout.decimal).split(b"\n") if cells else []
    try:
        values = np.array([float(cell or _BLANK) for cell in plain])
    except ValueError:
        return None
    return None if np.isinf(values).any() else values


def _is_plain(text, layout):
    """Whether the text holds figures, the decimal mark, separators and padding alone."""
    marks = _FIGURES.replace(b".", b"") + layout.decimal.encode()
    padding = b"" if layout.thousands == " " else _BLANKS
    ends = b"\n" + layout.separator.encode().replace(layout.thousands.encode() or b"\0", b"")
    ends += b"\t" if layout.separator == " " else b""
    return not text.translate(None, marks + padding + ends) and not (
        (b"e" in text or b"E" in text) and _TINY.search(text))


def _with_point(text, decimal):
    return text.replace(b",", b".") if decimal == "," else text


def _has_long_cell(text, separator):
    codes = np.frombuffer(text, np.uint8)
    ends = np.flatnonzero(codes == ord("\n"))
    if np.diff(ends, prepend=-1, append=len(codes)).max() <= LONGEST_CELL:
        return False
    breaks = np.flatnonzero((codes == ord("\n")) | (codes == ord(separator)))
    return np.diff(breaks, prepend=-1, append=len(codes)).max() > LONGEST_CELL


def _loaded(text, separator):
    try:
        return np.loadtxt(io.BytesIO(_with_blanks_named(text, separator)), comments=None, ndmin=2,
                          delimiter=None if separator == " " else separator)
    except ValueError:
        return None


def _with_blanks_named(text, separator):
    mark = separator.encode()
    if separator == " ":
        return text
    for left, right in ((mark, mark), (mark, mark), (b"\n", mark), (mark, b"\n")):
        text = text.replace(left + right, left + _BLANK + right)
    return (_BLANK * text.startswith(mark)) + text + (_BLANK * text.endswith(mark))


def _checked(table, text, layout):
    width = len(layout.columns)
    if table.shape[1] == width + 1 and np.isnan(table[:, -1]).all():
        table = table[:, :-1]             # a separator stands behind the last cell too
    lines = text.count(b"\n") + (not text.endswith(b"\n"))
    if table.shape != (lines, width) or np.isinf(table).any() or np.isnan(table).all(1).any():
        return None
    return table
