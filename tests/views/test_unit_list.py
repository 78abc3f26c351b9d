"""The list of units: whatever narrows it stands in its address."""
import re

import pytest
from django.urls import reverse

from teardowns.models import Unit
from tests.views.listed import contributor, enlist, listed

pytestmark = pytest.mark.django_db
ROW = re.compile(r'<th role="rowheader" scope="row">.*?<a href="[^"]*">([^<]*)</a>')


def page(client, **query):
    response = client.get(reverse("unit_list"), query)
    assert response.status_code == 200
    return response.content.decode()


def titles(client, **query):
    """The titles of the page, in order."""
    return ROW.findall(page(client, **query))


def counted(shown, facet, code):
    """How many units stand beside a value, whose box is checked or not."""
    box = re.search(rf'name="{facet}" value="{code}"( checked)?><span>[^<]*</span><b>(\d+)', shown)
    return (int(box[2]), bool(box[1])) if box else None


def test_it_rejects_post(client):
    assert client.post(reverse("unit_list")).status_code == 405


def test_it_lists_published_units_only(client):
    for status in ("draft", "submitted", "in_review", "sent_back", "withdrawn", "published"):
        listed(status, status=status)
    client.force_login(contributor())
    assert titles(client) == ["published"]


def test_what_is_not_listed_any_more_is_gone_with_the_next_page(client):
    unit = listed("A charger")
    assert titles(client) == ["A charger"]
    enlist(unit, is_listed=False)
    assert titles(client) == []


def test_a_row_changes_with_its_unit(client):
    unit = listed("A charger", verdict="supported", claimed_power=10)
    assert "claimed 10\u202fW" in page(client)
    standing = unit.publication.standing
    standing.verdict, standing.claimed_power = "implausible", 20
    enlist(unit)
    shown = page(client)
    assert "claimed 20\u202fW" in shown and "claimed 10\u202fW" not in shown
    assert titles(client, verdict="supported") == []


@pytest.mark.parametrize("searched", ["brenn", "CORVEN", "cv-45", "20v", "ab27x", "corven ab27x"])
def test_search_finds_title_maker_model_printed_text_and_marking(client, searched):
    listed("Brenndorf adapter", maker="Corven", model="CV-45", printed="20V 2.25A",
           marking="AB27X6 V1")
    listed("Another")
    assert titles(client, q=searched) == ["Brenndorf adapter"]


def test_a_row_shows_where_a_word_was_found(client):
    listed("A charger", marking="AB27X6 V1")
    found = page(client, q="AB27X6")
    assert '<p class="snippet">' in found and "<mark>" in found
    assert '<p class="snippet">' not in page(client)


def test_a_search_that_finds_nothing_proposes_other_words(client):
    listed("Brenndorf adapter", verdict="doubtful")
    shown = page(client, q="brenndxrf", verdict="doubtful")
    assert ROW.findall(shown) == [] and "Did you mean" in shown
    assert 'href="?q=brenndorf&amp;verdict=doubtful"' in shown.lower()


def test_a_search_that_finds_nothing_names_what_is_near_with_the_same_choices(client):
    listed("Brenndorf adapter", maker="Brenndorf", model="BX-4", verdict="doubtful")
    shown = page(client, q="brendarfix", verdict="doubtful")
    assert ROW.findall(shown) == [] and "Did you mean" not in shown
    assert re.search(r'Near it: +maker <a href="\?q=Brenndorf&amp;verdict=doubtful"', shown)


def test_a_search_that_nothing_is_near_says_so_and_what_that_says(client):
    listed("Brenndorf adapter")
    assert "is near these words either" in page(client, q="xyzzyxyzzy")


@pytest.mark.parametrize("searched", ["%", "_", "100%", "'; --", "\\", "<script>"])
def test_what_is_typed_is_letters_and_nothing_else(client, searched):
    listed("A charger")
    shown = page(client, q=searched)
    assert ROW.findall(shown) == [] and "<script>" not in shown.split("<main", 1)[1]


def test_each_value_shows_how_many_units_have_it(client):
    for verdict in ("doubtful", "doubtful", "possible"):
        listed("A charger", verdict=verdict)
    shown = page(client)
    assert counted(shown, "verdict", "doubtful") == (2, False)
    assert counted(shown, "verdict", "possible") == (1, False)


def test_choices_of_one_facet_widen_and_of_several_narrow(client):
    listed("a", verdict="doubtful", kind="desktop")
    listed("b", verdict="possible", kind="desktop")
    listed("c", verdict="possible", kind="other")
    assert sorted(titles(client, verdict=["doubtful", "possible"])) == ["a", "b", "c"]
    assert titles(client, verdict="possible", kind="desktop") == ["b"]


def test_a_chosen_value_stays_in_sight_where_no_unit_has_it(client):
    listed("A charger", verdict="possible", kind="desktop")
    shown = page(client, verdict="doubtful", kind="desktop")
    assert counted(shown, "verdict", "doubtful") == (0, True)
    assert counted(shown, "verdict", "possible") == (1, False)


def test_values_that_no_unit_has_wait_in_a_fold(client):
    listed("A charger", verdict="possible")
    facet = page(client).partition("<summary>Verdict")[2]
    seen, _, fold = facet.partition('<details class="fold">')
    assert 'value="possible"' in seen and 'value="doubtful"' not in seen
    assert 'value="doubtful"' in fold


@pytest.mark.parametrize(("facet", "code", "facts"), [
    ("measured", "10-20", {"measured_power": 12.0}), ("measured", "none", {}),
    ("hazard", "shock", {"hazards": ["fire", "shock"]}), ("year", "2024", {"year": 2024}),
    ("connector", "usb_c", {"connectors": ["usb_a", "usb_c"]}), ("topology", "flyback",
                                                                {"topology": "flyback"}),
    ("controller", "QX5500", {"controller": "QX5500"}), ("family", "board-a",
                                                        {"families": ["board-a"]}),
    ("completeness", "90-", {"completeness": 0.95}),
])
def test_a_fact_of_the_unit_narrows(client, facet, code, facts):
    other = {"measured_power": 40.0, "hazards": ["burn"], "connectors": ["barrel"], "year": 2020,
             "topology": "forward", "controller": "ZZ1", "families": ["board-b"],
             "completeness": 0.2}
    listed("wanted", facts=facts)
    listed("other", facts=other)
    assert titles(client, **{facet: code}) == ["wanted"]


def test_a_level_of_risk_is_shown_and_narrows(client):
    listed("grave", risk=4)
    listed("none found", risk=0)
    shown = page(client, risk="serious")
    assert ROW.findall(shown) == ["grave"] and "risk serious" in shown
    assert "no risk level given" in page(client, risk="none")


def test_the_widest_gap_is_the_largest_ratio_of_claim_to_capability(client):
    listed("three times", claimed_power=30, capability=10)           # 30 / 10
    listed("a quarter more", claimed_power=100, capability=80)       # 100 / 80, though 20 W apart
    listed("unknown", claimed_power=240)
    assert titles(client, sort="gap") == ["three times", "a quarter more", "unknown"]


@pytest.mark.parametrize(("sort", "low", "high"), [
    ("risk", {"risk": 1}, {"risk": 3}),
    ("reach", {"facts": {"reach": 9}}, {"facts": {"reach": 80}}),
    ("completeness", {"facts": {"completeness": 0.2}}, {"facts": {"completeness": 0.9}}),
])
def test_the_largest_comes_first_and_what_is_not_known_last(client, sort, low, high):
    listed("unknown")
    listed("low", **low)
    listed("high", **high)
    assert titles(client, sort=sort) == ["high", "low", "unknown"]


def test_newest_comes_first_unless_asked_otherwise(client):
    for day in (2, 3, 1):
        listed(f"day {day}", day=day)
    assert titles(client) == titles(client, sort="newest") == ["day 3", "day 2", "day 1"]


def test_a_choice_that_does_not_exist_is_named_and_narrows_nothing(client):
    listed("A charger", verdict="possible")
    listed("Another", verdict="doubtful")
    shown = page(client, verdict="excellent")
    assert "Verdict: “excellent” is not among the choices" in shown and len(ROW.findall(shown)) == 2
    assert titles(client, verdict=["excellent", "doubtful"]) == ["Another"]


@pytest.mark.parametrize(("searched", "remedy"), [
    ("nul\0byte", "type it anew"), ("x" * 101, "search for a part of it"),
])
def test_a_search_that_cannot_be_run_says_what_to_do(client, searched, remedy):
    assert remedy in page(client, q=searched)


def test_a_search_of_eight_misspelt_words_stays_within_the_queries_of_a_page(
        client, django_assert_max_num_queries):
    listed("Brenndorf adapter", maker="Corven")
    page(client)                                 # this process knows it now
    with django_assert_max_num_queries(12):
        page(client, q="brenndxrf adaptxr corvxn brxnndorf adxpter cxrven brenxdorf adaxter")


def test_what_narrows_the_list_can_be_removed_one_by_one(client):
    shown = page(client, q="corven", verdict=["doubtful", "possible"])
    for rest in ("?verdict=doubtful&amp;verdict=possible", "?q=corven&amp;verdict=possible"):
        assert f'href="{rest}"' in shown


def test_an_empty_list_says_what_to_do(client):
    assert "No unit is published yet" in page(client)
    assert "Remove one of the conditions" in page(client, q="corven")


def test_pages_of_25_lead_on_and_back_and_keep_what_narrows_them(client):
    for day in range(30):
        listed(f"Corven {day}", day=day)
    first = page(client, kind="plug_in")
    assert "1 to 25 of 30" in first and 'rel="prev"' not in first
    later = re.search(r'rel="next" href="([^"]*)"', first)[1].replace("&amp;", "&")
    assert "kind=plug_in" in later
    second = client.get(reverse("unit_list") + later).content.decode()
    assert ROW.findall(second) == [f"Corven {day}" for day in range(4, -1, -1)]
    assert "26 to 30 of 30" in second and 'rel="next"' not in second
    back = re.search(r'rel="prev" href="([^"]*)"', second)[1].replace("&amp;", "&")
    assert ROW.findall(client.get(reverse("unit_list") + back).content.decode())[0] == "Corven 29"


@pytest.mark.parametrize("place", ["two", "nan_1", "1_", "_", "\0", "9" * 90])
def test_a_place_that_is_none_leads_to_the_first_page_and_says_so(client, place):
    listed("A charger")
    shown = page(client, after=place)
    assert ROW.findall(shown) == ["A charger"] and "this is its first page" in shown


def test_who_is_not_signed_in_is_led_to_sign_in_and_back(client):
    assert "/sign-in/?next=%2Funits%2F%3Fverdict%3Ddoubtful" in page(client, verdict="doubtful")
    assert "Watch this search" not in page(client, verdict="doubtful")
    client.force_login(contributor())
    assert "Watch this search" in page(client, verdict="doubtful")


def test_what_is_found_can_be_taken_along_and_drawn(client):
    listed("A charger", verdict="doubtful")
    shown = page(client, verdict="doubtful", sort="gap")
    assert 'href="/units/list.csv?verdict=doubtful&amp;sort=gap"' in shown
    assert 'href="/population/?verdict=doubtful&amp;sort=gap"' in shown


def test_a_row_can_be_put_beside_others(client):
    unit = listed("A “charger”")
    assert f'href="/compare/?units={unit.pk}" data-unit="{unit.pk}"' in page(client)


def test_what_a_contributor_typed_is_escaped(client):
    listed('<script>alert(1)</script>"', maker="<b>", facts={"controller": '"><i>'})
    shown = page(client)
    assert "<script>alert" not in shown and "<b>&" not in shown and "<i>" not in shown


def test_its_queries_do_not_grow_with_the_units(client, django_assert_max_num_queries):
    for day in range(30):
        listed(f"Corven {day}", day=day, marking="AB27X6", claimed_power=20, capability=9)
    assert Unit.objects.count() == 30
    page(client, sort="gap")                     # this process knows them now
    with django_assert_max_num_queries(2):       # the clock, before the page and in it
        page(client, claimed="10-20", sort="gap")
    with django_assert_max_num_queries(8):
        page(client, q="corven ab27", claimed="10-20")
