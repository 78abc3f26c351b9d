"""Exporting: complete, brief, and as cheap for many units as for one."""
import pytest
from django.contrib.auth import get_user_model

from teardowns.exchange.document import read_document, write_document
from teardowns.models import Unit
from teardowns.services.export_unit import unit_document, unit_documents
from teardowns.services.import_unit import import_unit
from tests.exchange.whole_document import whole_document

pytestmark = pytest.mark.django_db
QUERIES = 9         # nine lists; the components bring their parts and limits


@pytest.fixture
def alice(db):
    return get_user_model().objects.create(username="alice")


def units(alice, count):
    for _ in range(count):
        document = whole_document()
        del document["unit"]["uid"]
        import_unit(document, alice, "in_review")
    return list(Unit.objects.all())


@pytest.mark.parametrize("count", [1, 5])
def test_many_units_take_as_many_queries_as_one(alice, count, django_assert_num_queries):
    found = units(alice, count)
    with django_assert_num_queries(QUERIES):
        assert len(unit_documents(found)) == count


def test_documents_come_in_the_order_of_their_units(alice):
    found = units(alice, 3)[::-1]
    uids = [document["unit"]["uid"] for document in unit_documents(found)]
    assert uids == [str(unit.uid) for unit in found]


def test_an_export_can_be_read(alice):
    document = unit_document(units(alice, 1)[0])
    assert read_document(write_document(document)) == document


def test_an_empty_unit_is_an_empty_document(alice):
    unit = Unit.objects.create(contributor=alice, title="Lamplit L5")
    assert read_document(unit_document(unit)) == unit_document(unit)
    assert unit_document(unit)["measurements"] == []


def test_what_was_saved_a_moment_ago_is_in_it(alice):
    (unit,) = units(alice, 1)
    unit_document(unit)
    unit.measurements.filter(key="held").update(value=11.0)
    assert unit_document(unit)["measurements"][0]["value"] == 11.0
