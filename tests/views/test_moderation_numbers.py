"""Everybody reads how much was decided and reversed, and nobody's name."""
import pytest

from teardowns.services.receive_report import receive_report
from teardowns.services.resolve_report import resolve_report
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/log/numbers/"


def test_it_counts_what_was_decided_and_names_nobody(client, unit, bob, mona):
    published(unit)
    report = receive_report(reporter=bob, about=f"unit/{unit.pk}", code="spam", text="Ads.")
    resolve_report(moderator=mona, report_pk=report.pk, upheld=False, code="not_supported",
                   facts="No ad is there.")
    page = client.get(ADDRESS).content.decode()
    assert "Report looked at: nothing breaks a rule" in page
    assert "mona" not in page and "bob" not in page and "No ad is there." not in page


def test_with_nothing_decided_it_says_so(client, db):
    page = client.get(ADDRESS).content.decode()
    assert "none decided" in page and "Nothing was decided" in page


def test_it_costs_few_queries(client, alice, django_assert_max_num_queries):
    client.force_login(alice)
    with django_assert_max_num_queries(8):
        client.get(ADDRESS)
