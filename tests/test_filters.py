"""The address of the list: what is right in it narrows, in SQL and in the index alike."""
from random import Random

import pytest
from django.db import transaction
from django.http import QueryDict

from teardowns.browsing.addresses import query_of
from teardowns.filters import UnitFilter, list_query, values_of
from teardowns.models import Channel, Connector, Kind, ListedUnit
from teardowns.services.browse import browse
from teardowns.services.facets import FACETS, POWER_ENDS
from tests.views.listed import enlist, listed

RANDOM = Random(8)
POWERS = [None, 0.0, 0.4, *POWER_ENDS, *(end + 0.01 for end in POWER_ENDS), 240.0]
SOME = {
    "claimed_power": POWERS, "measured_power": POWERS,
    "verdict": ["", "supported", "doubtful", "no evidence"], "risk": [0, 1, 2, 3, 4],
    "hazards": [[], ["shock"], ["fire", "burn"], ["shock", "fire"]],
    "connectors": [[], ["usb_a"], ["usb_c", "usb_a"], [Connector.values[-1]]],
    "topology": ["", "flyback", "corrected_flyback", "forward"],
    "controller": ["", "QX5500", "QX55", "100%_\\"], "year": [None, 2019, 2024],
    "channel": Channel.values, "kind": Kind.values, "families": [[], ["board-a"], ["board-ab"]],
    "completeness": [None, 0.0, 0.5, 0.5001, 0.75, 0.9, 1.0],
}
OPEN = {"year": ["2019", "2024", "2031", "none"], "controller": ["QX55", "100%_\\", "none"],
        "family": ["board-a", "board-ab", "other"]}


@pytest.fixture(scope="module")
def units(django_db_setup, django_db_blocker):
    """Sixty units with facts drawn by lot, on the edges of every band too; one is out of sight."""
    with django_db_blocker.unblock(), transaction.atomic():
        drawn_facts = [{name: RANDOM.choice(some) for name, some in SOME.items()}
                       for _ in range(60)]
        unit = [listed(f"Unit {n}", facts=facts) for n, facts in enumerate(drawn_facts)]
        enlist(unit[0], is_listed=False)
        yield unit
        transaction.set_rollback(True)


def drawn():
    """One to three facets with one to three codes each."""
    facets = RANDOM.sample(sorted(FACETS), RANDOM.randint(1, 3))
    codes = {facet: OPEN.get(facet) or list(FACETS[facet].values) for facet in facets}
    return {facet: tuple(RANDOM.sample(some, RANDOM.randint(1, min(3, len(some)))))
            for facet, some in codes.items()}


def in_sql(choices):
    given = QueryDict(query_of("", choices)[1:])
    return set(UnitFilter(given, ListedUnit.objects.all()).qs.values_list("pk", flat=True))


@pytest.mark.django_db
def test_the_index_finds_what_sql_finds(units):
    found = 0
    for _ in range(120):
        choices = drawn()
        page = browse(choices, size=100)
        assert set(page.pks) == in_sql(choices), choices
        found += page.total
    assert found > 0


@pytest.mark.django_db
def test_each_count_is_what_sql_counts_with_that_value_alone(units):
    for _ in range(4):
        choices = drawn()
        counts = browse(choices).counts
        for facet in FACETS:
            rest = {name: codes for name, codes in choices.items() if name != facet}
            for code, count in counts[facet].items():
                assert count == len(in_sql(rest | {facet: (code,)})), (choices, facet, code)


@pytest.mark.django_db
def test_what_is_out_of_sight_is_found_by_neither(units):
    assert units[0].pk not in in_sql({}) and units[0].pk not in browse({}, size=100).pks
    assert len(in_sql({})) == 59


def test_an_address_is_read_and_written_back():
    query = "?q=corven+45&claimed=10-20&verdict=doubtful&verdict=possible&sort=gap&after=1_2"
    asked = list_query(query[1:])
    assert asked.text == "corven 45" and asked.choices["verdict"] == ("doubtful", "possible")
    assert asked.query(asked.after) == query


@pytest.mark.parametrize("query", ["", "verdict=", "q=++", "sort=newest", "sort=rank", "nothing=1"])
def test_what_asks_for_nothing_asks_for_the_whole_list(query):
    asked = list_query(query)
    assert (asked.text, asked.choices, asked.sort, asked.query()) == ("", {}, "", "?")


def test_a_search_comes_by_its_best_unless_another_order_is_asked_for():
    assert list_query("q=a&sort=newest").sort == "newest" and list_query("q=a&sort=rank").sort == ""
    assert "rank" in dict(list_query("q=a").orders) and "rank" not in dict(list_query("").orders)


@pytest.mark.parametrize(("query", "facet"), [
    ("verdict=excellent", "verdict"), ("year=20", "year"),
    ("year=%D9%A2%D9%A0%D9%A2%D9%A4", "year"),           # digits of another script
    ("family=A+B", "family"), ("controller=" + "x" * 201, "controller"), ("sort=height", "sort"),
])
def test_a_wrong_value_is_named_and_narrows_nothing(query, facet):
    asked = list_query(query)
    assert "is not among the choices, so it narrows nothing" in asked.errors[facet]
    assert asked.choices == {} and asked.sort == ""


def test_the_right_values_beside_a_wrong_one_still_narrow():
    asked = list_query("verdict=excellent&verdict=possible&kind=desktop")
    assert asked.choices == {"verdict": ("possible",), "kind": ("desktop",)}


def test_what_narrows_is_told_in_words_with_the_address_without_it():
    asked = list_query("q=a&claimed=10-20&claimed=none&after=1_2")
    assert list(asked.conditions) == [
        ("Search", "a", "?claimed=10-20&claimed=none"),
        ("Claimed power", "over 10 to 20 W", "?q=a&claimed=none"),
        ("Claimed power", "no power claimed", "?q=a&claimed=10-20")]


def test_years_come_the_latest_first_and_the_unknown_last():
    counts = {"2019": 1, "none": 4, "2024": 2}
    assert [code for code, _ in values_of(FACETS["year"], counts, {})] == ["2024", "2019", "none"]
