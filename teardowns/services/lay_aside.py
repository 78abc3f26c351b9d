"""Keep what a correction proposed, and give the unit's rows back to the version that stands."""
from __future__ import annotations

from core.accounts.models import User
from teardowns.models import Correction, Unit

from .assess_units import assess_units
from .export_unit import unit_document
from .restore_rows import restore_rows
from .thaw import freeze


def lay_aside(unit: Unit, by: User | None) -> Correction | None:
    """The open correction of a locked unit, its proposal kept; None where there is none.

    Call it in the transaction that ends the correction unpublished, before its state moves.
    """
    correction = unit.work.correction
    if correction is None:
        return None
    correction.proposal = {"frozen": freeze(unit), "document": unit_document(unit)}
    correction.save(update_fields=["proposal"])
    restore_rows(unit, correction.base.frozen, correction.author, by)
    unit.refresh_from_db()
    assess_units([unit], confirmed_only=True)
    assess_units([unit])
    return correction
