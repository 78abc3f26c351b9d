"""Drop a correction that its author no longer wants: the rows are those of the public version."""
from __future__ import annotations

from django.db import transaction

from core.accounts.models import User
from teardowns import access
from teardowns.models import Correction
from teardowns.workflow import NotNow

from .lay_aside import lay_aside
from .move_work import locked_unit, move

NONE_OPEN = "No correction of this record is open."
TAKE_BACK = "This correction was handed in. Take it back first, then it can be dropped."


@transaction.atomic
def drop_correction(*, author: User, unit_pk: int, reason: str = "") -> Correction:
    """The dropped correction, with what it proposed. Raises Http404 or NotNow."""
    locked_unit(unit_pk)
    unit = access.unit_of_own(author, unit_pk)
    work = unit.work
    if work.correction is None:
        raise NotNow(NONE_OPEN)
    if not work.is_open:
        raise NotNow(TAKE_BACK)
    correction = work.correction
    lay_aside(unit, author)
    move(unit, "discard", author, reason.strip())
    correction.refresh_from_db()
    return correction
