"""An index that follows changes is the index that would be made of all at once."""
from hypothesis import given
from hypothesis import strategies as st

from teardowns.browsing.finding import find
from tests.browsing.reference import changed, choices, indexed, quick, tables


def told(index, asked, sort):
    return find(index, asked, sort=sort, size=1000)


@quick
@given(tables, st.lists(tables, max_size=3), choices, st.sampled_from(["power", "age"]))
def test_change_by_change_comes_to_the_same_as_all_at_once(first, later, asked, sort):
    index, table = indexed(first), first
    for some in later:
        index, table = indexed(some, index), changed(table, some)
    assert told(index, asked, sort) == told(indexed(table), asked, sort)


@quick
@given(tables, tables)
def test_who_reads_an_index_is_not_disturbed_by_the_next(first, later):
    index = indexed(first)
    before = told(index, {}, "age")
    indexed(later, index)
    assert told(index, {}, "age") == before
    assert told(index, {"word": ("yes",)}, "age") == told(indexed(first), {"word": ("yes",)}, "age")
