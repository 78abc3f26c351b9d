import pytest

from teardowns.models import ListedUnit
from tests.core.doctor.found import bad
from tests.published import published

pytestmark = pytest.mark.django_db


def test_a_row_that_is_not_what_is_public_is_named(unit):
    published(unit)
    assert bad("listing") == ""
    ListedUnit.objects.update(title="another")
    assert f"unit {unit.pk} the first" in bad("listing")


def test_a_row_too_few_is_counted(unit):
    published(unit)
    ListedUnit.objects.all().delete()
    assert "0 units are listed and 1 are public" in bad("listing")
