import uuid

import pytest

from core.audit.models import Entry
from teardowns.models import Unit
from teardowns.services.start_unit import start_unit

pytestmark = pytest.mark.django_db


def test_a_resend_of_the_same_page_opens_one_sheet(alice):
    uid = uuid.uuid4()
    first, second = (start_unit(alice, uid, {"title": "Veltrice VQ-45"}) for _ in range(2))
    assert first == second
    assert (first.contributor, first.status) == (alice, "draft")
    assert Unit.objects.count() == Entry.objects.count() == 1


def test_the_uid_of_somebody_else_s_sheet_opens_nothing(alice, bob, unit):
    with pytest.raises(Unit.DoesNotExist):
        start_unit(bob, unit.uid, {"title": "Mine"})
