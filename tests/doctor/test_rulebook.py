import pytest

from teardowns.models import Assessment
from tests.core.doctor.found import bad
from tests.published import published

pytestmark = pytest.mark.django_db


def test_records_under_other_rules_are_counted(unit):
    published(unit)
    assert bad("rulebook") == ""
    Assessment.objects.update(rulebook="2+0")
    assert "1 public records stand under other rules" in bad("rulebook")
