"""The front page: a search, the newest verdicts, how to read one."""
import pytest
from django.urls import reverse

from teardowns.presenting.verdict_words import VERDICT_WORDS
from tests.views.listed import listed

pytestmark = pytest.mark.django_db


def get(client):
    response = client.get("/")
    assert response.status_code == 200
    return response.content.decode()


def test_an_empty_site_says_what_to_do(client):
    page = get(client)
    assert "No unit is published yet" in page
    assert f'href="{reverse("bench_list")}">Record it' in page


def test_it_rejects_post(client):
    assert client.post("/").status_code == 405


def test_its_search_leads_to_the_list(client):
    page = get(client)
    assert f'action="{reverse("unit_list")}"' in page and 'name="q"' in page


def test_it_leads_to_all_ways_to_find_a_unit(client):
    listed("A charger")
    page = get(client)
    for address in ("/units/", "/units/by-plate/", "/compare/", "/population/"):
        assert f'href="{address}"' in page
    assert "1 unit," in page


def test_who_opened_a_unit_finds_the_way_to_record_it(client):
    assert f'<a href="{reverse("bench_list")}">Opened one yourself?</a>' in client.get(
        "/").content.decode()


def test_the_newest_unit_stands_first(client):
    for day, title in ((1, "The older one"), (2, "The newer one")):
        listed(title, day=day)
    page = get(client)
    assert page.index("The newer one") < page.index("The older one")


def test_it_shows_ten_units(client):
    for day in range(11):
        listed(f"Unit of day {day}.", day=day)
    page = get(client)
    assert "Unit of day 10." in page and "Unit of day 1." in page
    assert "Unit of day 0." not in page


def test_a_row_prints_claim_capability_verdict_and_day(client):
    listed("A charger", claimed_power=22.5, capability=10.0, verdict="implausible")
    page = get(client)
    # the interval that `listed` gives: 0.8 and 1.25 times 10 W
    for part in ("claimed 22.5\u202fW", "8.0 to 12.5\u202fW", "implausible", "2026-03-01"):
        assert part in page


def test_a_unit_without_a_claim_is_not_given_a_verdict(client):
    listed("A charger", verdict="")
    page = get(client)
    assert "no claim to judge" in page and "capability unknown" in page


def test_a_draft_is_nobody_elses_business(client):
    listed("A draft", status="draft")
    assert "A draft" not in get(client)


def test_all_seven_verdict_words_are_explained(client):
    page = get(client)
    assert len(VERDICT_WORDS) == 7
    assert all(word.chip in page and word.meaning in page for word in VERDICT_WORDS)


def test_it_carries_the_deferral(client):
    assert "It is not a safety certificate" in get(client)


def test_what_a_contributor_typed_is_escaped(client):
    listed("<script>alert(1)</script>", maker="<b>")
    page = get(client)
    assert "<script>alert" not in page and "<b>" not in page


def test_its_queries_do_not_grow_with_the_units(client, django_assert_max_num_queries):
    for day in range(10):
        listed(f"Unit {day}", day=day, claimed_power=20, capability=15)
    with django_assert_max_num_queries(5):       # clock, units that changed, rows, gravest ones
        get(client)
    with django_assert_max_num_queries(1):       # clock
        get(client)
