"""A page of public units: as the database has them now, whoever changed them."""
from threading import Thread

import pytest
from django.db import connection, transaction

from teardowns.models import ListedUnit, Unit
from teardowns.services import browse as service
from teardowns.services.browse import browse, public_index
from teardowns.services.facets import FACETS, SORTS
from teardowns.services.list_units import list_units
from teardowns.services.listing_clock import hold_clock, raise_clock
from tests.cast import person
from tests.published import confirm_all, published
from tests.services.measured_units import measured_units

PLAIN = {"verdict": "", "kind": "plug_in", "channel": "shop"}


@pytest.fixture
def rows(alice):
    """Twelve units, listed without evidence."""
    return make(alice, 12)


def make(author, count):
    publication = published(Unit.objects.create(contributor=author, title="Lamplit"))
    units = [publication.unit, *Unit.objects.bulk_create(
        Unit(contributor=author, title="Lamplit") for _ in range(count - 1))]
    first = ListedUnit.objects.get()
    for unit in units[1:]:
        first.pk, first.unit_id = unit.pk, unit.pk
        first.save(force_insert=True)
    return [change(unit.pk) for unit in units]


def change(pk, **columns):
    """A row becomes another, as list_units would leave it."""
    with transaction.atomic():
        number = raise_clock(hold_clock())
        ListedUnit.objects.filter(pk=pk).update(changed=number, **columns)
    return pk


@pytest.mark.django_db
class TestPage:
    def test_where_nothing_has_changed_it_asks_for_the_clock_alone(
            self, rows, django_assert_num_queries):
        first = browse({})
        with django_assert_num_queries(1):
            assert browse({}) == first

    def test_a_change_is_followed_and_not_all_read_anew(self, rows, django_assert_num_queries):
        assert browse({"risk": ("high",)}).total == 0
        change(rows[3], risk=3)
        with django_assert_num_queries(4):        # clock, its trail, how many, these
            assert browse({"risk": ("high",)}).pks == [rows[3]]

    def test_so_many_changes_that_all_are_read_anew(self, rows):
        browse({})
        for pk in rows:
            change(pk, risk=2)
        assert browse({"risk": ("medium",)}).total == len(rows)

    def test_what_is_listed_no_more_is_gone(self, rows):
        browse({})
        change(rows[0], is_listed=False)
        assert browse({}).total == len(rows) - 1

    def test_what_is_taken_back_was_never_there(self, rows):
        before = browse({})
        point = transaction.savepoint()
        change(rows[3], risk=3)
        assert browse({}) != before
        transaction.savepoint_rollback(point)
        assert browse({}) == before
        change(rows[4], risk=2)                   # the number that was taken back, used again
        found = browse({}).counts["risk"]
        assert found == {"medium": 1, "none": len(rows) - 1}

    def test_facets_and_orders_read_every_row(self, alice):
        units = measured_units(alice, 3)
        found = browse({"measured": ("65-100",)}, sort="gap")
        assert found.pks == [units[-1].pk]        # 160 g: 0.1 W · 160^1.3 = 73 W, with its scatter
        assert all(sum(found.counts[code].values()) >= 1 for code in FACETS
                   if not FACETS[code].has_many)

    @pytest.mark.parametrize("sort", SORTS)
    def test_every_order_gives_all_units_once(self, rows, sort):
        assert sorted(browse({}, sort=sort, size=100).pks) == rows

    def test_within_a_search_its_order_is_kept(self, rows):
        asked = [rows[5], rows[1], 10**6, rows[9]]
        assert browse({}, sort="rank", within=asked).pks == [rows[5], rows[1], rows[9]]

    def test_before_anything_was_listed_nothing_is_kept(self, db):
        assert browse({}).total == 0 and not public_index().pks.size


@pytest.mark.django_db(transaction=True)
def test_another_connection_does_not_see_what_is_not_committed_yet():
    alice = person("alice")
    pks = make(alice, 3)
    before = browse({})
    with transaction.atomic():
        change(pks[0], risk=4)
        assert browse({"risk": ("serious",)}).pks == [pks[0]]      # who changed it does
        if connection.vendor == "postgresql":                      # SQLite shares one in tests
            assert elsewhere(lambda: browse({})) == before
        transaction.set_rollback(True)
    assert browse({}) == before == elsewhere(lambda: browse({}))


@pytest.mark.skipif(connection.vendor == "sqlite", reason="in memory, readers lock whole tables")
@pytest.mark.django_db(transaction=True)
def test_many_readers_while_it_changes_see_whole_states():
    alice = person("alice")
    pks = make(alice, 4)
    totals = set()

    def read():
        for _ in range(20):
            found = browse({})
            totals.add((found.total, sum(found.counts["risk"].values())))
        connection.close()

    readers = [Thread(target=read) for _ in range(3)]
    for reader in readers:
        reader.start()
    for at in range(20):
        change(pks[at % 4], is_listed=bool(at // 4 % 2), risk=at % 5)
    for reader in readers:
        reader.join()
    assert totals and all(total == counted for total, counted in totals)
    assert browse({}).total == ListedUnit.objects.listed().count()


def elsewhere(ask):
    """The answer of another thread, with a connection of its own."""
    found = []

    def run():
        found.append(ask())
        connection.close()

    thread = Thread(target=run)
    thread.start()
    thread.join()
    return found[0]


@pytest.mark.django_db
def test_a_unit_made_public_is_found_in_the_same_moment(alice, unit):
    browse({})
    confirm_all(unit)
    published(unit)
    assert browse({}).pks == [unit.pk]
    assert service.FACETS is FACETS and list_units([unit.pk]) == []
