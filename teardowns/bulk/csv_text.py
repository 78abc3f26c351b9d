"""Rows of a table as CSV text (RFC 4180): empty is what is not known, numbers as Python has them.

Cells are as they are recorded: this is data for programs. A text that begins with a sign may be
taken for a formula by a spreadsheet.
"""
from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Mapping
from typing import Any

from .tables import Table


def heading(table: Table) -> str:
    return _text([[column.name for column in table.columns]])


def lines(table: Table, rows: Iterable[Mapping[str, Any]]) -> str:
    """The rows without the heading; fields that are no columns of the table are left out."""
    return _text([_cell(row.get(column.name)) for column in table.columns] for row in rows)


def _cell(value):
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (list, dict)):
        return json.dumps(value, ensure_ascii=False, allow_nan=False)
    return value


def _text(rows):
    written = io.StringIO()
    csv.writer(written, lineterminator="\r\n").writerows(rows)
    return written.getvalue()
