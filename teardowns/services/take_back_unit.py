"""Take back what was handed in, before anybody decided."""
from __future__ import annotations

from django.db import transaction

from core.accounts.models import User
from teardowns import access
from teardowns.models import Unit

from .move_work import locked_unit, move


@transaction.atomic
def take_back_unit(*, author: User, unit_pk: int) -> Unit:
    """The unit, open for its author again; reviews of it end. Raises Http404 or NotNow."""
    locked_unit(unit_pk)
    unit = access.unit_of_own(author, unit_pk)
    move(unit, "take_back", author)
    return unit
