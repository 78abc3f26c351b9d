"""The list of units: whatever narrows it stands in its address."""
import pytest
from django.urls import reverse

from tests.views.listed import assess, contributor, listed

pytestmark = pytest.mark.django_db


def titles(client, **query):
    """The titles of the first page, in order."""
    response = client.get(reverse("unit_list"), query)
    assert response.status_code == 200
    return [row.title for row in response.context["rows"]]


def page(client, **query):
    return client.get(reverse("unit_list"), query).content.decode()


def test_it_rejects_post(client):
    assert client.post(reverse("unit_list")).status_code == 405


def test_it_lists_published_units_only(client):
    for status in ("draft", "submitted", "in_review", "sent_back", "withdrawn", "published"):
        listed(status, status=status)
    client.force_login(contributor())
    assert titles(client) == ["published"]


def test_a_unit_shows_what_the_rulebook_in_force_says_once(client):
    unit = listed("A charger", verdict="supported", claimed_power=10)
    unit.publication.standing = assess(unit, rulebook="2+second", verdict="implausible",
                                       claimed_power=20)
    unit.publication.save()
    response = client.get(reverse("unit_list"))
    (row,) = response.context["rows"]
    assert "implausible" in row.verdict and row.claimed == "claimed 20\u202fW"
    assert titles(client, verdict="supported") == []


@pytest.mark.parametrize("searched", ["brenn", "CORVEN", "cv-45", "20v", "ab27x", "corven ab27x"])
def test_search_finds_title_maker_model_printed_text_and_marking(client, searched):
    listed("Brenndorf adapter", maker="Corven", model="CV-45", printed="20V 2.25A",
           marking="AB27X6 V1")
    listed("Another")
    assert titles(client, q=searched) == ["Brenndorf adapter"]


def test_every_word_of_a_search_must_be_found(client):
    listed("Brenndorf adapter", maker="Corven")
    assert titles(client, q="brenndorf elsewhere") == []


def test_two_findings_in_one_unit_list_it_once(client):
    unit = listed("A charger", marking="AB27X6")
    unit.components.create(key="second", role="other", marking="AB27X7", author=contributor())
    assert titles(client, q="AB27") == ["A charger"]


@pytest.mark.parametrize("searched", ["%", "_", "100%", "'; --", "\\"])
def test_wildcards_are_plain_characters(client, searched):
    listed("A charger")
    assert titles(client, q=searched) == []


@pytest.mark.parametrize(("band", "found"), [
    ("0-10", ["ten"]), ("10-20", ["twenty"]), ("20-30", ["above twenty"]), ("65-", ["hundred"]),
])
def test_a_band_of_claimed_power_includes_its_upper_end(client, band, found):
    for title, power in (("ten", 10), ("twenty", 20), ("above twenty", 20.01), ("hundred", 100),
                         ("no claim", None)):
        listed(title, claimed_power=power)
    assert titles(client, power=band) == found


def test_verdict_kind_and_channel_narrow_together(client):
    listed("wanted", verdict="doubtful", kind="desktop", channel="shop")
    listed("other verdict", verdict="possible", kind="desktop", channel="shop")
    listed("other kind", verdict="doubtful", kind="plug_in", channel="shop")
    listed("other channel", verdict="doubtful", kind="desktop", channel="street")
    assert titles(client, verdict="doubtful", kind="desktop", channel="shop") == ["wanted"]


def test_the_widest_gap_is_the_largest_ratio_of_claim_to_capability(client):
    listed("three times", claimed_power=30, capability=10)           # 30 / 10
    listed("a quarter more", claimed_power=100, capability=80)       # 100 / 80, though 20 W apart
    listed("unknown", claimed_power=240)
    listed("nothing left", claimed_power=5, capability=0)            # no ratio: last, no error
    assert titles(client, sort="gap")[:2] == ["three times", "a quarter more"]


def test_the_highest_claim_comes_first_and_no_claim_last(client):
    for title, power in (("low", 5), ("none", None), ("high", 65)):
        listed(title, claimed_power=power)
    assert titles(client, sort="power") == ["high", "low", "none"]


def test_newest_comes_first_unless_asked_otherwise(client):
    for day in (2, 3, 1):
        listed(f"day {day}", day=day)
    assert titles(client) == titles(client, sort="newest") == ["day 3", "day 2", "day 1"]


def test_a_choice_that_does_not_exist_is_named_and_narrows_nothing(client):
    listed("A charger")
    shown = page(client, verdict="excellent")
    assert "“excellent” is not among the choices" in shown
    assert "A charger" in shown


@pytest.mark.parametrize(("searched", "remedy"), [
    ("nul\0byte", "type it anew"), ("x" * 101, "search for a part of it"),
])
def test_a_search_that_cannot_be_run_says_what_to_do(client, searched, remedy):
    assert remedy in page(client, q=searched)


def test_what_narrows_the_list_can_be_removed_one_by_one(client):
    shown = page(client, q="corven", verdict="doubtful", page="3")
    assert 'href="?verdict=doubtful"' in shown and 'href="?q=corven"' in shown


def test_an_empty_list_says_what_to_do(client):
    assert "No unit is published yet" in page(client)
    assert "Remove one of the conditions" in page(client, q="corven")


def test_pages_of_25_keep_what_narrows_them(client):
    for day in range(26):
        listed(f"Corven {day}", day=day)
    shown = page(client, q="corven")
    assert len(titles(client, q="corven")) == 25
    assert titles(client, q="corven", page=2) == ["Corven 0"]
    assert 'href="?q=corven&amp;page=2"' in shown and "Page 1 of 2" in shown


@pytest.mark.parametrize("number", ["0", "99", "two", "-1"])
def test_a_page_that_does_not_exist_becomes_one_that_does(client, number):
    listed("A charger")
    assert titles(client, page=number) == ["A charger"]


def test_its_queries_do_not_grow_with_the_units(client, django_assert_max_num_queries):
    for day in range(30):
        listed(f"Corven {day}", day=day, marking="AB27X6", claimed_power=20, capability=9)
    client.force_login(contributor())
    with django_assert_max_num_queries(4):       # session, user, count, rows
        page(client, q="corven ab27", power="10-20", sort="gap")
