"""The demo that a test is given is the one that was loaded first, row by row."""
import pytest

from teardowns.models import Publication, Unit
from tests.demo import KeptDemo

kept = KeptDemo()


@pytest.mark.parametrize("time", ["loaded", "put back"])
@pytest.mark.django_db(transaction=True)
def test_it_is_there_each_time_and_new_rows_come_after_it(time):
    report = kept.there()
    assert Unit.objects.published().count() == Publication.objects.count() == report.published
    newest = Unit.objects.order_by("pk").last()
    assert Unit.objects.create(contributor=newest.contributor, title="Next").pk == newest.pk + 1
