"""Only what two people confirmed, of records that are public, is a headline."""
import pytest

from teardowns.services.serious_headlines import serious_headlines
from tests.views.test_feeds import FINDING, confirm, public, serious

pytestmark = pytest.mark.django_db


def test_each_serious_finding_stands_with_how_many_confirmed_it(rita, rolf, mona):
    unit = public()
    serious(unit)
    confirm(unit, rita, rolf, mona)
    headline, = serious_headlines()
    assert headline.publication.unit == unit and headline.confirmed == 3
    assert headline.finding == FINDING


def test_many_records_cost_as_many_queries_as_one(rita, rolf, django_assert_num_queries):
    for number in range(4):
        unit = public(f"Lamplit L{number}")
        serious(unit)
        confirm(unit, rita, rolf)
    with django_assert_num_queries(3):
        assert len(serious_headlines()) == 4


def test_a_finding_that_rests_on_nothing_is_none(rita, rolf):
    unit = public()
    serious(unit, evidence=[])
    confirm(unit, rita, rolf)
    assert serious_headlines() == []
