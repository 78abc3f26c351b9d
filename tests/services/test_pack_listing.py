"""A process that begins reads the kept index and what changed since; never one that is not so."""
import pytest
from django.db import transaction

from teardowns import jobs
from teardowns.models import ListingClock, ListingPack
from teardowns.services import browse as service
from teardowns.services.browse import browse, pack_listing
from tests.services.test_browse import change, make

pytestmark = pytest.mark.django_db
READS_PACK = 4      # the clock; what is kept, whether it belongs; how many changed since


@pytest.fixture
def rows(alice):
    return make(alice, 12)


@pytest.fixture
def begun(monkeypatch):
    """A process that holds nothing yet; reading all rows is told."""
    read = []

    def begin():
        read.clear()
        monkeypatch.setattr(service, "_index", service.Follower(
            lambda: read.append(1) or service._read_all(), service._with_changes,
            service._packs.kept))
        return read
    return begin


def test_it_begins_with_what_is_kept(rows, begun, django_assert_num_queries):
    before = browse({}, sort="risk")
    jobs.pack_listing()
    read = begun()
    with django_assert_num_queries(READS_PACK):
        assert browse({}, sort="risk") == before
    assert not read


def test_what_changed_since_is_followed(rows, begun, monkeypatch):
    pack_listing()
    change(rows[3], risk=3)
    change(rows[4], is_listed=False)
    read = begun()
    monkeypatch.setattr(service, "MOST_FOLLOWED", 0.5)
    assert browse({"risk": ("high",)}).pks == [rows[3]]
    assert browse({}).total == len(rows) - 1 and not read


def test_where_most_of_it_changed_all_is_read(rows, begun):
    pack_listing()
    for pk in rows:
        change(pk, risk=2)
    read = begun()
    assert browse({"risk": ("medium",)}).total == len(rows) and read


def test_it_is_kept_again_only_where_something_changed(rows):
    assert [pack_listing(), pack_listing()] == [True, False]
    change(rows[0], risk=1)
    assert pack_listing() and ListingPack.objects.count() == 1


def test_one_made_in_another_way_is_left_alone_and_replaced(rows, begun):
    pack_listing()
    ListingPack.objects.update(form="f" * 64, packed=b"no index")
    read = begun()
    assert browse({}).total == len(rows) and read
    assert pack_listing()


def test_one_of_changes_that_never_came_to_be_is_left_alone(rows, begun):
    pack_listing()
    ListingPack.objects.update(stamp="00000000")
    read = begun()
    assert browse({}).total == len(rows) and read
    ListingPack.objects.update(number=10**6)
    read = begun()
    assert browse({}).total == len(rows) and read


def test_one_that_is_older_than_the_trail_is_followed(rows, begun, monkeypatch):
    pack_listing()
    monkeypatch.setattr(ListingClock, "KEPT", 3)
    for risk in (1, 2, 3, 4):
        change(rows[0], risk=risk)
    read = begun()
    assert browse({"risk": ("serious",)}).pks == [rows[0]] and not read


def test_before_anything_was_listed_nothing_is_kept(db):
    assert not pack_listing() and not ListingPack.objects.exists()


def test_what_is_taken_back_takes_its_pack_along(rows):
    point = transaction.savepoint()
    change(rows[0], risk=4)
    pack_listing()
    transaction.savepoint_rollback(point)
    assert not ListingPack.objects.exists()
    assert browse({"risk": ("serious",)}).total == 0
