"""Flagged hazards: the gravest first, then reach, then certainty."""
import pytest
from django.urls import reverse

from teardowns.models import Assessment, Status, Unit

pytestmark = pytest.mark.django_db
ADDRESS = "/hazards/"
SAFETY = {"findings": [], "results": [], "without_scenario": [], "flags": []}


@pytest.fixture
def flagged(alice):
    def make(title, risk, reach=None, certainty=None, status=Status.PUBLISHED, flags=0):
        unit = Unit.objects.create(contributor=alice, title=title, listing_reach=reach,
                                   status=status)
        findings = [{"title": "Loose metal", "level": "high"}] if risk else []
        Assessment.objects.create(
            unit=unit, rulebook="3", evidence_digest=title, risk=risk, risk_certainty=certainty,
            flags=flags, payload={"safety": SAFETY | {"findings": findings}})
        return unit
    return make


def titles(client):
    rows = client.get(ADDRESS).context["rows"]
    return [row["title"] for row in rows]


def test_the_order_is_risk_reach_certainty(client, rita, flagged):
    client.force_login(rita)
    flagged("low", 1, 9000)
    flagged("high, unknown reach", 3)
    flagged("high, sold", 3, 500, 0.6)
    flagged("high, sold, surer", 3, 500, 0.9)
    flagged("serious", 4)
    assert titles(client) == ["serious", "high, sold, surer", "high, sold",
                              "high, unknown reach", "low"]


def test_units_without_a_finding_and_drafts_are_not_listed(client, rita, flagged):
    client.force_login(rita)
    flagged("nothing", 0)
    flagged("draft", 4, status=Status.DRAFT)
    flagged("submitted", 2, status=Status.SUBMITTED)
    assert titles(client) == ["submitted"]


def test_what_falls_short_without_a_level_is_listed_last(client, rita, flagged):
    client.force_login(rita)
    flagged("flagged, sold", 0, 9000, flags=2)
    flagged("low", 1)
    assert titles(client) == ["low", "flagged, sold"]
    assert "no level given" in client.get(ADDRESS).content.decode()


def test_only_the_newest_assessment_counts(client, rita, flagged):
    client.force_login(rita)
    unit = flagged("was grave", 4)
    Assessment.objects.create(unit=unit, rulebook="3", evidence_digest="newer", risk=0,
                              payload={"safety": SAFETY})
    assert titles(client) == []


def test_a_hundred_units_stand_on_pages_and_cost_few_queries(
        client, rita, flagged, django_assert_max_num_queries):
    for number in range(100):
        flagged(f"unit {number}", 2)
    client.force_login(rita)
    with django_assert_max_num_queries(7):
        page = client.get(ADDRESS)
    assert len(page.context["rows"]) == 25 and "?page=2" in page.content.decode()


def test_how_a_level_is_known_is_said_beside_it(client, rita, flagged):
    client.force_login(rita)
    flagged("high", 3)
    page = client.get(ADDRESS).content.decode()
    assert "illustration, by a table from memory; by another rulebook" in page
    assert "no act of an authority" in page


def test_a_contributor_may_not_and_a_reader_is_sent_to_sign_in(client, alice):
    assert client.get(ADDRESS).status_code == 302
    client.force_login(alice)
    assert client.get(ADDRESS).status_code == 403


def test_reviewers_find_it_in_the_navigation(client, rita, alice):
    client.force_login(rita)
    assert reverse("hazard_list") in client.get("/").content.decode()
    client.force_login(alice)
    assert reverse("hazard_list") not in client.get("/").content.decode()
