"""Parts by role: what is in each unit, and where it is the same marking as in another."""
from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import isclose

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten, Quoted
from core.words.said import said
from teardowns.figures.markup import element
from teardowns.models.components import Role
from teardowns.reading.markings_alike import alike
from teardowns.reviewing.progress import BELIEVED

from . import evidence_cells as cells
from .cell_text import cell_text
from .compare_columns import Cell, Column, Row, cell, letters, link, quiet

NOBODY = "nothing recorded"
UNCONFIRMED = "not confirmed, and not compared"
ALIKE = 0.01            # values no further apart than this are one value


@dataclass(frozen=True, slots=True)
class Kind:
    """What one unit has in one role."""

    rows: list              # as recorded, in their order
    markings: frozenset     # spelt alike, of the confirmed ones that have a marking
    states: frozenset       # of the others: "not_found", …
    values: tuple           # of all confirmed ones, in order of size; () where one is not known

    @property
    def compares(self):
        return self.markings or self.states


def compared_parts(columns: Sequence[Column]) -> list[Row]:
    """A row for each role that anybody recorded something of."""
    return [_row(role, columns) for role in Role
            if any(row.role == role for column in columns
                   for row in column.compared.rows["component"])]


def _row(role, columns) -> Row:
    kinds = [_kind(role, column) for column in columns]
    usual = _usual(kinds)
    return Row(f"{role.label[:1].upper()}{role.label[1:]}", _summed(kinds), [
        _cell(column, kind, columns, kinds, usual)
        for column, kind in zip(columns, kinds, strict=True)])


def _kind(role, column) -> Kind:
    rows = [row for row in column.compared.rows["component"] if row.role == role]
    counted = [row for row in rows if row.review_state in BELIEVED]
    return Kind(rows,
                frozenset(alike(row.marking) for row in counted
                          if row.state == "recorded" and row.marking),
                frozenset(row.state for row in counted if row.state != "recorded"),
                _values([row for row in counted if row.state == "recorded"]))


def _values(rows) -> tuple:
    known = sorted(row.nominal for row in rows if row.nominal is not None)
    return tuple(known) if len(known) == len(rows) else ()


def _other_value(kind, other) -> bool:
    """Whether both say their values and these are not the same."""
    return bool(kind.values and other.values) and (
        len(kind.values) != len(other.values)
        or any(not isclose(a, b, rel_tol=ALIKE)
               for a, b in zip(kind.values, other.values, strict=True)))


def _usual(kinds) -> frozenset | None:
    """What more than half of those have that can be compared; None where there is no such."""
    known = [kind.compares for kind in kinds if kind.compares]
    usual, count = Counter(known).most_common(1)[0] if known else (None, 0)
    return usual if count > 1 and 2 * count > len(known) else None


def _summed(kinds) -> str:
    """Of the row: whether its markings are the same, as far as two or more were read."""
    read = [kind.markings for kind in kinds if kind.markings]
    if len(read) < 2:
        return ""
    if len(set(read)) > 1:
        return "≠ markings differ"
    return "= same marking" if len(read) == len(kinds) else "= same marking where it was read"


def _cell(column, kind, columns, kinds, usual) -> Cell:
    if not kind.rows:
        return cell(column, [quiet(NOBODY)])
    differs = usual is not None and bool(kind.compares) and kind.compares != usual
    lines = [_part(row, column) for row in kind.rows]
    return cell(column, [mark_safe("".join(lines)), _relation(kind, columns, kinds)], differs)


def _part(row, column) -> str:
    """Marking or state, then value and ratings."""
    looked = cells.looked(row) or ""
    marking = said(Quoted(row.marking)) if row.marking else ""
    name = marking or (row.part and str(row.part)) or (
        "" if looked else said("marking not recorded"))
    count = f"{row.count} × " if row.count != 1 else ""
    words = [*(cells.component_value(row) if row.state == "recorded" else ()),
             *([UNCONFIRMED] if row.review_state not in BELIEVED else ())]
    head = looked or link(AsWritten(f"{count}{name}"), column.links.evidence(row.ref))
    return element("span", head, *(element("small", cell_text(word)) for word in words), cls="part")


def _others(columns):
    return letters(columns) if len(columns) == 1 else "the others"


def _relation(kind, columns, kinds) -> SafeString | str:
    """ "same marking as B and C", "another marking than B" """
    if not kind.markings:
        return ""
    others = [(column, other) for column, other in zip(columns, kinds, strict=True)
              if other is not kind and other.markings]
    same = [column for column, other in others
            if other.markings == kind.markings and not _other_value(kind, other)]
    valued = [column for column, other in others
              if other.markings == kind.markings and _other_value(kind, other)]
    partly = [column for column, other in others
              if other.markings != kind.markings and other.markings & kind.markings]
    told = [f"{words} {letters(found)}" for words, found in (
        ("same marking as", same), ("same marking, another value than", valued),
        ("partly the same as", partly)) if found]
    if not told and others:
        told = [f"another marking than {_others([column for column, _ in others])}"]
    return "; ".join(told)
