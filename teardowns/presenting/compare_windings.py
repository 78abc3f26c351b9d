"""Winding sections of several units at one scale."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .compare_columns import Column
from .winding_section import WindingSection, own_scale, winding_section_of


@dataclass(frozen=True, slots=True)
class ComparedWinding:
    column: Column
    section: WindingSection | None      # None: no layer was recorded
    states: str                         # of the layers looked for without one to draw, or ""


def compared_windings(columns: Sequence[Column]) -> list[ComparedWinding]:
    """Empty where no unit has a layer. The widest section fills its drawing."""
    scales = [own_scale(column.compared.rows) for column in columns]
    shared = min((scale for scale in scales if scale), default=None)
    if shared is None:
        return []
    return [ComparedWinding(column, _section(column, shared), _states(column))
            for column in columns]


def _section(column, scale):
    return winding_section_of(column.report, column.compared.rows, column.links, scale,
                              f"wd-{column.letter.lower()}")


def _states(column):
    found = {row.get_state_display().lower() for row in column.compared.rows["stacklayer"]
             if row.state != "recorded"}
    return ", ".join(sorted(found)) or "nothing recorded"
