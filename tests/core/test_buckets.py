"""Limits on how often: no clock and no header opens them. At once: test_concurrency.py."""
import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import HttpResponse

from core import buckets
from core.buckets import HOUR, MINUTE, left_of, limited, network_of, sweep_buckets, take
from core.models import Bucket

pytestmark = pytest.mark.django_db
NOW = 1_790_000_000.0


def taken(times, amount=20, per=HOUR, now=NOW, key="7"):
    return sum(take("comments", key, amount, per, now=now) == 0 for _ in range(times))


def test_a_bucket_gives_what_it_holds_and_no_more():
    assert taken(25) == 20


def test_each_person_and_each_limit_has_a_bucket_of_its_own():
    taken(20)
    assert taken(1, key="8") == 1
    assert take("reports", "7", 20, HOUR, now=NOW) == 0


def test_it_fills_up_as_time_passes():
    taken(20)
    # 20 an hour is one in 180 s; 400 s bring two.
    assert taken(5, now=NOW + 400) == 2


def test_it_never_holds_more_than_its_size():
    taken(20)
    assert taken(25, now=NOW + 10 * HOUR) == 20


def test_the_wait_is_how_long_the_missing_part_takes():
    taken(20)
    assert take("comments", "7", 20, HOUR, now=NOW) == 180
    assert take("comments", "7", 20, HOUR, now=NOW + 100) == 80
    assert take("comments", "7", 20, HOUR, cost=2, now=NOW) == 360


def test_a_clock_that_jumps_back_and_forth_fills_nothing():
    taken(20)
    assert taken(5, now=NOW - 2 * HOUR) == taken(5, now=NOW) == 0
    assert take("comments", "7", 20, HOUR, now=NOW - 2 * HOUR) == 2 * HOUR + 180


def test_many_may_be_taken_at_once():
    assert take("bytes", "7", 500e6, HOUR, cost=300e6, now=NOW) == 0
    assert take("bytes", "7", 500e6, HOUR, cost=300e6, now=NOW) == 720    # 100e6 of 500e6 an hour


@pytest.mark.parametrize("cost", [0, -1, 21])
def test_what_can_never_be_taken_is_a_mistake(cost):
    with pytest.raises(ValueError):
        take("comments", "7", 20, HOUR, cost=cost)


def test_no_address_is_stored():
    take("comments", "192.0.2.7", 20, HOUR)
    assert "192.0.2" not in Bucket.objects.get().owner


def test_buckets_that_have_long_been_full_are_forgotten():
    take("comments", "7", 20, HOUR, now=NOW - 10 * 365 * 24 * HOUR)
    take("comments", "8", 20, HOUR)
    assert sweep_buckets() == 1 and Bucket.objects.count() == 1


@pytest.mark.parametrize(("address", "network"), [
    ("192.0.2.7", "192.0.2.7"),
    ("2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64"),
    ("2001:db8:1:2:ffff::1", "2001:db8:1:2::/64"),
    ("::ffff:192.0.2.7", "192.0.2.7"),
    ("", "unknown"), ("somewhere", "unknown"),
])
def test_a_network_is_an_address_or_the_64_bits_of_one(rf, address, network):
    assert network_of(rf.get("/", REMOTE_ADDR=address)) == network


def test_without_a_proxy_forwarded_addresses_are_not_believed(rf):
    request = rf.get("/", REMOTE_ADDR="192.0.2.7", headers={"x-forwarded-for": "198.51.100.1"})
    assert network_of(request) == "192.0.2.7"


@pytest.mark.parametrize(("forwarded", "network"), [
    ("198.51.100.1", "198.51.100.1"),
    ("203.0.113.9, 198.51.100.1", "198.51.100.1"),
    ("203.0.113.9,2001:db8::1, 198.51.100.1 ", "198.51.100.1"),
    (" , ", "127.0.0.1"),
])
def test_behind_one_proxy_only_what_it_saw_itself_counts(rf, settings, forwarded, network):
    settings.PROXIES = 1
    request = rf.get("/", REMOTE_ADDR="127.0.0.1", headers={"x-forwarded-for": forwarded})
    assert network_of(request) == network


def posted(rf, user, limit, address="192.0.2.7"):
    request = rf.post("/", REMOTE_ADDR=address)
    request.user = user
    return limit(lambda request: HttpResponse("done"))(request)


def test_a_limited_view_answers_429_and_when_to_come_back(rf, alice, monkeypatch):
    monkeypatch.setattr(buckets, "time", lambda: NOW)
    limit = limited("reports", account=(1, HOUR))
    assert posted(rf, alice, limit).status_code == 200
    refused = posted(rf, alice, limit)
    assert (refused.status_code, refused["Retry-After"]) == (429, "3600")
    assert b"Try again in 60 minutes" in refused.content


def test_strangers_are_counted_by_network(rf):
    limit = limited("reports", account=(9, HOUR), network=(1, MINUTE))
    assert posted(rf, AnonymousUser(), limit).status_code == 200
    assert posted(rf, AnonymousUser(), limit).status_code == 429
    assert posted(rf, AnonymousUser(), limit, "192.0.2.8").status_code == 200


def test_the_whole_site_can_have_a_limit(rf, alice, bob):
    limit = limited("sign_up", site=(1, HOUR))
    assert posted(rf, alice, limit).status_code == 200
    assert posted(rf, bob, limit, "192.0.2.8").status_code == 429


def test_reading_is_not_counted(rf, alice):
    view = limited("reports", account=(1, HOUR))(lambda request: HttpResponse("shown"))
    request = rf.get("/")
    request.user = alice
    assert [view(request).status_code for _ in range(3)] == [200] * 3


def test_what_is_left_is_told_and_nothing_is_taken():
    take("page", 1, 10, 100, cost=4, now=1000.0)
    # 6 are left; in 20 s two more come back, and never more than there were.
    assert [left_of("page", 1, 10, 100, now) for now in (1000.0, 1020.0, 1020.0, 9000.0, 900.0)] \
        == [6.0, 8.0, 8.0, 10, 6.0]
    assert left_of("page", 2, 10, 100, 1000.0) == 10
