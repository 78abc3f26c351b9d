"""Every row of every kind, at once."""
import pytest

from teardowns.models import EVIDENCE
from teardowns.services.evidence_overview import evidence_overview
from tests.views.reviewed import rich_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def rich(alice):
    return rich_unit(alice)


def test_each_row_of_each_kind_is_there_in_order(rich, django_assert_num_queries):
    with django_assert_num_queries(1):
        found = evidence_overview([rich.pk])
    rows = [row for model in EVIDENCE for row in model.objects.filter(unit=rich).order_by("pk")]
    assert [(row.ref, row.version, row.author) for row in found[rich.pk]] == [
        (row.ref, row.version, row.author_id) for row in rows]


def test_a_unit_without_rows_has_none(unit):
    assert evidence_overview([unit.pk]) == {}
