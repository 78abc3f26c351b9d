"""Channels as delimited text that a spreadsheet, and this site, reads back to the last bit.

RFC 4180: comma, double quotes, CR LF. A heading that a spreadsheet would run as a formula gets an
apostrophe in front (OWASP, "CSV Injection"); numbers stay as they are, a minus sign too.
"""
from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence

import numpy as np

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.roles import ROLES

ROWS = 4096                  # a piece of text
_END = "\r\n"
# OWASP names =, +, -, @, tab, CR, LF and the full-width forms of the first four.
_STARTS_FORMULA = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
_UNIT = re.compile(r"\s*(?:\[[^\]]*\]|\([^)]*\)|/\s*\S{1,3})\s*$")


def rows_as_text(channels: Channels, start: float, end: float) -> Iterator[str]:
    """The rows whose time lies in [start, end], time first, all in SI; a blank stays blank."""
    channels = channels.between(start, end)
    yield _line(["time (s)", *map(_heading, channels.channels)])
    columns = [channels.time, *(channel.values for channel in channels.channels)]
    for first in range(0, len(channels.time), ROWS):
        yield _rows([column[first:first + ROWS] for column in columns])


def without_formula(text: str) -> str:
    """Text that no spreadsheet takes for a formula, on one line."""
    held = text.startswith(_STARTS_FORMULA) or text.lstrip().startswith(_STARTS_FORMULA)
    shown = "".join(" " if unicodedata.category(c) in {"Cc", "Cf"} else c for c in text).strip()
    held = held or shown.startswith(_STARTS_FORMULA)
    return f"'{shown}" if held else shown


def _heading(channel: Channel) -> str:
    """The file's own heading with the unit that the numbers now have."""
    role = ROLES[channel.column.role]
    label = _UNIT.sub("", channel.column.label).strip() or role.label
    return without_formula(f"{label} ({role.unit})" if role.unit else label)


def _line(cells: Sequence[str]) -> str:
    return ",".join(_quoted(cell) for cell in cells) + _END


def _quoted(cell):
    doubled = cell.replace('"', '""')
    return f'"{doubled}"' if re.search('[",\r\n\']|^[ ]|[ ]$', cell) else cell


def _rows(columns: Sequence[np.ndarray]) -> str:
    """repr of a float is the shortest text that reads back as the same float."""
    texts = [["" if value != value else repr(value) for value in column.tolist()]
             for column in columns]
    return "".join(",".join(cells) + _END for cells in zip(*texts, strict=True))
