"""A unit that is public, by the way every unit becomes it: with a version."""
from django.db import transaction

from core.accounts.models import Role, User
from teardowns.models import EVIDENCE, Publication, Status, Unit
from teardowns.services.publish_unit import keep_version


def published(unit: Unit, moderator: User | None = None) -> Publication:
    """The unit's next version, of its rows as they are, whoever looked at them."""
    if moderator is None:
        moderator, _ = User.objects.get_or_create(
            username="publisher", defaults={"role": Role.MODERATOR})
    with transaction.atomic():
        unit.status = Status.PUBLISHED
        unit.save()
        return keep_version(unit, moderator)


def confirm_all(unit: Unit) -> None:
    """Every row of evidence counts in public, whoever looked at it."""
    for model in EVIDENCE:
        model.objects.filter(unit=unit, review_state="open").update(review_state="confirmed")
