"""Open a bench sheet: a draft unit of one's own."""
from uuid import UUID

from django.db import transaction

from core.audit.record import record
from teardowns.models import Unit

from .account_room import check_sheets


@transaction.atomic
def start_unit(contributor, uid: UUID, values: dict) -> Unit:
    """The draft with this uid; the form carries the uid, so that a resend makes no second one.

    Raises Unit.DoesNotExist for the uid of somebody else's unit, NotNow where too many are open.
    """
    if not Unit.objects.filter(uid=uid).exists():
        check_sheets(contributor)
    unit, is_new = Unit.objects.get_or_create(
        uid=uid, defaults=values | {"contributor": contributor}
    )
    if unit.contributor_id != contributor.pk:
        raise Unit.DoesNotExist
    if is_new:
        record(contributor, "unit_started", unit)
    return unit
