"""A column of the head of a log, with what its heading and its cells show."""
from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from teardowns.logs.cell_kinds import BAD, BLANK
from teardowns.logs.decimal_marks import as_number
from teardowns.logs.headings import Heading, read_heading
from teardowns.logs.preamble import Headings
from teardowns.logs.separators import Table


@dataclass(frozen=True, slots=True)
class SeenColumn:
    index: int
    label: str                # heading with its unit line: what a layout is remembered by
    heading: Heading
    kind: str                 # of most cells; BLANK where none is filled
    cells: tuple[str, ...]    # those of that kind

    def values(self, decimal: str) -> np.ndarray:
        """Its numbers under a decimal mark."""
        read = (as_number(cell, decimal) for cell in self.cells)
        return np.array([value for value in read if value is not None])


def see_columns(table: Table, headings: Headings) -> tuple[SeenColumn, ...]:
    """All columns; a separator at the end of each line makes none."""
    columns = tuple(_seen(table, headings, index) for index in range(table.width))
    empty = columns[-1].kind == BLANK and not columns[-1].label
    return columns[:-1] if empty and len(columns) > 1 else columns


def _seen(table: Table, headings: Headings, index: int) -> SeenColumn:
    label = headings.labels[index] if headings.labels else ""
    unit = headings.units[index]
    kinds = Counter(row.kinds[index] for row in table.rows)
    filled = Counter({kind: n for kind, n in kinds.items() if kind not in (BLANK, BAD)})
    kind = filled.most_common(1)[0][0] if filled else BLANK
    heading = _lettered(headings.labels, label) or read_heading(label, unit)
    bare = unit.strip().strip("[](){}")
    return SeenColumn(index, f"{label} [{bare}]".strip() if bare else label, heading, kind,
                      tuple(row.cells[index] for row in table.rows if row.kinds[index] == kind))


def _lettered(labels: Sequence[str], label: str) -> Heading | None:
    """A, B, C, D name the channels of a scope; A alone is a current."""
    letters = {name for name in labels if re.fullmatch("[A-D]", name)}
    return Heading() if label in letters and {"A", "B"} <= letters else None
