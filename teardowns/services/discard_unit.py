"""Put a bench sheet that was never published out of sight; nothing of it is deleted."""
from __future__ import annotations

from django.db import transaction

from core.accounts.models import User
from teardowns import access
from teardowns.models import Unit
from teardowns.workflow import NotNow

from .move_work import locked_unit, move

PUBLIC = "This record has been published, so it cannot be discarded; it can be withdrawn."


@transaction.atomic
def discard_unit(*, author: User, unit_pk: int, reason: str = "") -> Unit:
    """The unit, which nobody finds any more; rows, history and files stay. Raises Http404, NotNow.

    A correction of a published unit is dropped elsewhere: its unit stays.
    """
    locked_unit(unit_pk)
    unit = access.unit_of_own(author, unit_pk)
    if unit.publication_id or unit.work.correction:
        raise NotNow(PUBLIC)
    move(unit, "discard", author, reason=reason)
    return unit
