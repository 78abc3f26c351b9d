"""The claims of each unit beside their verdicts."""
from __future__ import annotations

from collections.abc import Sequence

from django.utils.safestring import SafeString, mark_safe

from core.templatetags.said import said_picture
from core.words.said import said
from teardowns.figures.markup import element
from teardowns.figures.scale_table import linked

from .cell_text import cell_text
from .claims_section import ClaimRow, claim_rows
from .compare_columns import Cell, Column, Row, cell, listed, quiet
from .compare_power import headline
from .links import claim_anchor

NO_CLAIM = "no power claim was recorded"


def compared_claims(columns: Sequence[Column]) -> list[Row]:
    """The claim that the unit's verdict is about, and below it the rest."""
    claims = [_headline_first(column) for column in columns]
    rows = [Row("Largest power claim", "", [
        _largest(column, found) for column, found in zip(columns, claims, strict=True)])]
    if any(len(found) > 1 for found in claims):
        rows.append(Row("Other claims", "", [
            cell(column, [listed(map(_short, found[1:]))] if found[1:] else [quiet("none")])
            for column, found in zip(columns, claims, strict=True)]))
    return rows


def _headline_first(column) -> list[ClaimRow]:
    claim = headline(column.report)
    first = claim_anchor(claim["ref"]) if claim else ""
    return sorted(claim_rows(column.report, column.links), key=lambda row: row.anchor != first)


def _largest(column, found) -> Cell:
    if not found:
        return cell(column, [quiet(NO_CLAIM)])
    claim = found[0]
    return cell(column, [_quoted(claim), said_picture(claim.chip), _plausible(claim), claim.decided,
                         *filter(None, [claim.note, claim.suspicion])])


def _quoted(claim: ClaimRow) -> SafeString:
    return mark_safe(linked(said(claim.text), claim.working)
                     + element("small", cell_text(claim.ratings)))


def _plausible(claim: ClaimRow) -> str:
    return "plausibility " + ", ".join(f"{one.text} at {one.mains}"
                                       for one in claim.plausibilities)


def _short(claim: ClaimRow) -> SafeString:
    return mark_safe(f"{linked(said(claim.text), claim.working)} {said_picture(claim.chip)}")
