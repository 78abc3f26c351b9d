"""A moderator takes on a case or hands it to another, so that nothing waits without an owner."""
from __future__ import annotations

from django.db import transaction

from core.accounts.models import Role, User
from core.audit.record import record
from teardowns.models import Charge

NO_MODERATOR = "Choose a moderator who can take it: an active one, and not the author."


class NotTheirs(ValueError):
    """The person named cannot own a case; the text is for the page."""


@transaction.atomic
def take_charge(*, moderator: User, subject: str, unit_pk: int | None = None) -> Charge:
    """The case is this moderator's from now on, whoever had it."""
    charge, _ = Charge.objects.update_or_create(subject=subject, defaults={"owner": moderator})
    record(moderator, "charge_taken", unit=unit_pk, subject=subject)
    return charge


@transaction.atomic
def hand_over(*, moderator: User, subject: str, to: User, unit_pk: int | None = None) -> Charge:
    """The case is somebody else's from now on. Raises NotTheirs."""
    if to.role != Role.MODERATOR or not to.in_good_standing or to.pk == moderator.pk:
        raise NotTheirs(NO_MODERATOR)
    charge, _ = Charge.objects.update_or_create(subject=subject, defaults={"owner": to})
    record(moderator, "charge_handed_over", unit=unit_pk, subject=subject, to=f"user/{to.pk}")
    return charge
