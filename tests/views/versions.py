"""Two versions of Alice's public unit, by a correction of Bob's, for the pages that show them."""
import re

from django.db import transaction

from teardowns.models import Unit
from teardowns.services.publish_unit import keep_version
from tests.corrections import corrected, public_unit, write
from tests.published import confirm_all


def two_versions(alice, bob, mona, **more):
    """The unit, whose second version has one row changed, one removed and one added."""
    unit = public_unit(alice, **more)
    correction = corrected(unit, bob)
    write(unit)
    confirm_all(unit)
    correction.status, correction.closed_at = "published", correction.opened_at
    correction.save()
    with transaction.atomic():
        keep_version(Unit.objects.get(pk=unit.pk), mona, correction=correction)
    return Unit.objects.get(pk=unit.pk)


def address(unit, end=""):
    return f"/units/{unit.pk}/{end}"


def page(client, unit, end="", status=200):
    """Its text, with spaces as one reads them and without what is drawn anew for each answer."""
    response = client.get(address(unit, end))
    assert response.status_code == status, end
    text = re.sub(r'(nonce|name="once" value)="[^"]*"', "", response.content.decode())
    return " ".join(text.replace("\u202f", " ").split())
