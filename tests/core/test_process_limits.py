"""Limits that a process counts by itself: of searches, which write nothing."""
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from core import process_limits
from core.process_limits import Buckets

NOW = 1000.0


@pytest.fixture(autouse=True)
def full_buckets(monkeypatch):
    monkeypatch.setattr(process_limits, "buckets", Buckets())


def taken(buckets, times, owner="a", now=NOW):
    return sum(buckets.take("search", owner, 20, 60, now=now) == 0 for _ in range(times))


def test_a_bucket_gives_what_it_holds_and_fills_up_again():
    """20 in 60 s: one every 3 s, so 9 s later there are three."""
    buckets = Buckets()
    assert taken(buckets, 25) == 20 and taken(buckets, 5, owner="b") == 5
    assert buckets.take("search", "a", 20, 60, now=NOW) == 3
    assert taken(buckets, 10, now=NOW + 9) == 3


def test_a_hundred_at_once_get_no_more_than_it_holds():
    buckets = Buckets()
    with ThreadPoolExecutor(16) as pool:
        assert sum(pool.map(lambda _: taken(buckets, 1), range(100))) == 20


def test_owners_that_were_not_seen_for_long_are_forgotten():
    buckets = Buckets(most=3)
    for owner in "abcd":
        taken(buckets, 20, owner=owner)
    assert taken(buckets, 20, owner="d") == 0 and taken(buckets, 20, owner="a") == 20


@pytest.mark.django_db
@pytest.mark.parametrize("address", ["/units/?q=hub", "/parts/?q=hub", "/units/by-plate/?text=5V"])
def test_searches_beyond_the_limit_are_429_and_write_nothing(client, settings, address):
    settings.SEARCHES = 2
    assert [client.get(address).status_code for _ in range(2)] == [200, 200]
    with CaptureQueriesContext(connection) as asked:
        answer = client.get(address)
    assert (answer.status_code, len(asked)) == (429, 0) and 1 <= int(answer["Retry-After"]) <= 30


@pytest.mark.django_db
def test_a_list_without_a_search_is_not_counted_and_a_person_has_a_bucket_of_their_own(
        client, settings, alice):
    settings.SEARCHES = 1
    assert {client.get("/units/").status_code for _ in range(3)} == {200}
    assert [client.get("/units/?q=a").status_code for _ in range(2)] == [200, 429]
    client.force_login(alice)
    assert [client.get("/units/?q=a").status_code for _ in range(2)] == [200, 429]


@pytest.mark.django_db
def test_suggestions_come_with_each_key_so_there_are_more_of_them(client, settings):
    settings.SEARCHES = 1
    codes = [client.get("/units/suggestions.json?q=a").status_code for _ in range(5)]
    assert codes == [200] * 4 + [429]
