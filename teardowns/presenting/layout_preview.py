"""The first rows of a log beside what they are read as."""
from __future__ import annotations

from math import isnan
from typing import Any

from core.words.as_written import AsWritten
from teardowns.logs.cells import number, seconds
from teardowns.logs.detect import Proposal
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import NOT_USED, ROLES, TIME, UNITS
from teardowns.reading.quantity import print_quantity

SHOWN_ROWS, SHOWN_CELL = 8, 40
DIGITS = 6               # enough to tell a mistaken mark from a right one


def layout_preview(proposal: Proposal, layout: Layout) -> dict[str, Any]:
    """`heads` and `rows` as the file has them; `read`: the first row as numbers with units."""
    rows = [{"line": line, "cells": [cell[:SHOWN_CELL] for cell in cells]}
            for line, cells in proposal.rows[:SHOWN_ROWS]]
    first = proposal.rows[0] if proposal.rows else (0, ())
    return {"heads": [AsWritten(column.label) or f"Column {column.index + 1}"
                      for column in layout.columns],
            "rows": rows, "line": first[0],
            "read": [_read(column, first[1], layout) for column in layout.columns]}


def _read(column: LogColumn, cells, layout):
    if column.role == NOT_USED or column.index >= len(cells):
        return "–"
    try:
        return _printed(column, cells[column.index], layout)
    except RefusedLog as refusal:
        return refusal.why


def _printed(column, cell, layout):
    if column.role == TIME and layout.time_style == "clock":
        return cell if not isnan(seconds(cell, layout)) else "blank"
    value, unit = number(cell, layout), ROLES[column.role].unit
    if isnan(value):
        return "blank"
    factor, offset = UNITS[unit].get(column.unit, (1.0, 0.0)) if column.unit else (1.0, 0.0)
    return print_quantity(factor * (value + offset), unit, digits=DIGITS)
