"""The part library: searched by marking, however it is spelt."""
import pytest

from teardowns.models import Part
from teardowns.services.index_words import index_parts
from teardowns.services.search import Hits
from tests.library import contain, listed
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/parts/"


def markings(client, query=""):
    return [row["part"].marking for row in client.get(f"{ADDRESS}?q={query}").context["rows"]]


def test_everybody_reads_it_in_the_order_of_the_alphabet(client, mona):
    listed(mona, "PZ6318")
    listed(mona, "KR905", None)
    assert markings(client) == ["KR905", "PZ6318"]


@pytest.mark.parametrize("asked", ["PZ63-18 A", "pz6318a", "63 18", "z-6.3/1_8",
                                   "pz6318%00a"])
def test_spaces_hyphens_and_case_do_not_matter(client, mona, asked):
    listed(mona, "PZ 6318-A")
    listed(mona, "KR905", None)
    assert markings(client, asked) == ["PZ 6318-A"]


def test_markings_that_begin_with_it_come_first(client, mona):
    for marking in ("AB-63", "PZ6318", "6318-X"):
        listed(mona, marking, None)
    assert markings(client, "63") == ["6318-X", "AB-63", "PZ6318"]


def test_a_misread_marking_is_found_by_the_search(client, mona):
    part = listed(mona, "PZ6O18", None)
    index_parts([part.pk])
    page = client.get(ADDRESS, {"q": "PZ6018"})
    assert page.context["rows"] == [] and list(page.context["near"]) == [part]
    assert part.get_absolute_url() in page.content.decode()


def test_what_the_search_finds_best_is_offered_first(client, mona, monkeypatch):
    first, second = listed(mona, "PZ6O18", None), listed(mona, "PZ6O19", None)
    monkeypatch.setattr("teardowns.views.part_list.search",
                        lambda text: Hits([], [second.pk, first.pk, 10**6], []))
    assert client.get(ADDRESS, {"q": "KR905"}).context["near"] == [second, first]


@pytest.mark.parametrize("asked", ["%", "zz", "PZ6319"])
def test_what_is_not_there_is_offered_to_be_proposed(client, mona, asked):
    listed(mona)
    page = client.get(ADDRESS, {"q": asked})
    assert page.context["rows"] == [] and "propose it</a>" in page.content.decode()


def test_what_a_bench_sheet_brought_in_is_not_listed(client, alice):
    Part.objects.create(marking="KR905", curator=alice)
    client.force_login(alice)
    assert markings(client) == []


def test_each_part_says_how_many_published_units_contain_it(client, mona, unit):
    part = listed(mona)
    listed(mona, "KR905", None)
    contain(unit, part)
    published(unit)
    rows = client.get(ADDRESS).context["rows"]
    assert {row["part"].marking: row["units"] for row in rows} == {"PZ6318": 1, "KR905": 0}


def test_a_hundred_parts_stand_on_pages_and_cost_few_queries(
        client, alice, mona, django_assert_max_num_queries):
    for n in range(100):
        listed(mona, f"PZ{n:03}", None)
    client.force_login(alice)
    with django_assert_max_num_queries(9):
        page = client.get(f"{ADDRESS}?q=pz&page=2")
    assert len(page.context["rows"]) == 50
    assert "?q=pz&amp;page=1" in page.content.decode()


def test_it_takes_no_post(client, mona):
    client.force_login(mona)
    assert client.post(ADDRESS).status_code == 405
