"""An index that follows changes is the index that would be made of all at once."""
from hypothesis import given
from hypothesis import strategies as st

from teardowns.browsing.finding import find
from teardowns.browsing.orders import FEW
from tests.browsing.reference import Row, changed, choices, indexed, quick, tables


def told(index, asked, sort):
    return find(index, asked, sort=sort, size=1000)


@quick
@given(tables, st.lists(tables, max_size=3), choices, st.sampled_from(["power", "age"]))
def test_change_by_change_comes_to_the_same_as_all_at_once(first, later, asked, sort):
    index, table = indexed(first), first
    for some in later:
        index, table = indexed(some, index), changed(table, some)
    assert told(index, asked, sort) == told(indexed(table), asked, sort)


def test_more_changes_at_once_than_are_put_in_one_by_one():
    first = [Row(pk, pk % 7, "yes", (), "x1", (), pk % 5) for pk in range(1, FEW)]
    later = [Row(pk, pk % 3, "no", ("a",), "x2", (), pk % 4) for pk in range(FEW // 2, 2 * FEW)]
    index = indexed(later, indexed(first))
    for sort in ("power", "age"):
        assert told(index, {}, sort) == told(indexed(changed(first, later)), {}, sort)


@quick
@given(tables, tables)
def test_who_reads_an_index_is_not_disturbed_by_the_next(first, later):
    index = indexed(first)
    before = told(index, {}, "age")
    indexed(later, index)
    assert told(index, {}, "age") == before
    assert told(index, {"word": ("yes",)}, "age") == told(indexed(first), {"word": ("yes",)}, "age")


@quick
@given(tables, tables, st.lists(st.integers(1, 200), unique=True))
def test_units_are_found_by_their_numbers_in_the_order_asked(first, later, pks):
    old = indexed(first)
    for index, table in ((old, first), (indexed(later, old), changed(first, later))):
        known = {row.pk for row in table}
        found = index.pks[index.slots(pks)].tolist()
        assert found == [pk for pk in pks if pk in known]


def test_slots_that_rise_are_known_to():
    first, second = ([Row(pk, 1.0, "", (), "", (), 1.0)] for pk in (5, 3))
    assert indexed(first).rises and not indexed(second, indexed(first)).rises
