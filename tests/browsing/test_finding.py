"""Pages and counts of an index, against the same found one by one."""
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.browsing.finding import RANK, find
from teardowns.browsing.orders import START, BadPlace
from tests.browsing.reference import (
    FACETS,
    Row,
    choices,
    chosen,
    counted,
    in_order,
    indexed,
    quick,
    tables,
)

sorts = st.sampled_from(["power", "age"])


def pages(index, asked, sort, size, within=None):
    """Every page, from the first to the last."""
    found, after = [], ""
    while True:
        found.append(find(index, asked, sort=sort, after=after, size=size, within=within))
        after = found[-1].after
        if not after:
            return found


@quick
@given(tables, choices)
def test_it_counts_what_one_by_one_counts(table, asked):
    found = find(indexed(table), asked, sort="power", size=5)
    assert found.total == len(chosen(table, asked))
    assert {code: dict(found.counts[code]) for code in found.counts} == counted(table, asked)


@quick
@given(tables, choices, sorts, st.integers(1, 40))
def test_its_pages_are_the_sorted_list_cut_in_pieces(table, asked, sort, size):
    wanted = [row.pk for row in in_order(chosen(table, asked), sort)]
    seen = [page.pks for page in pages(indexed(table), asked, sort, size)]
    assert [pk for page in seen for pk in page] == wanted
    assert all(len(page) == size for page in seen[:-1])


@quick
@given(tables, choices, st.integers(1, 20))
def test_each_page_says_which_of_all_its_first_unit_is(table, asked, size):
    firsts = [page.first for page in pages(indexed(table), asked, "age", size)]
    assert firsts == list(range(1, size * len(firsts) + 1, size))


@quick
@given(tables, choices, sorts, st.integers(1, 20))
def test_the_way_back_leads_over_the_same_pages(table, asked, sort, size):
    index = indexed(table)
    there = pages(index, asked, sort, size)
    assert there[0].before == ""
    for earlier, page in zip(there, there[1:], strict=False):
        back = find(index, asked, sort=sort, after=page.before, size=size)
        assert back == earlier


@quick
@given(tables, choices, st.lists(st.integers(1, 220), unique=True), st.integers(1, 20))
def test_within_a_search_its_order_is_kept(table, asked, hits, size):
    listed = {row.pk for row in chosen(table, asked)}
    seen = pages(indexed(table), asked, RANK, size, within=hits)
    assert [pk for page in seen for pk in page.pks] == [pk for pk in hits if pk in listed]
    assert seen[0].total == len(listed & set(hits))


@quick
@given(tables, choices, st.lists(st.integers(1, 220), unique=True))
def test_counts_within_a_search_are_those_of_its_units(table, asked, hits):
    found = find(indexed(table), asked, sort="age", within=hits)
    assert found.counts == counted([row for row in table if row.pk in hits], asked)


def unit(pk, **changes):
    plain = {"power": 12.0, "word": "yes", "plugs": ("a",), "chip": "x1", "boards": (),
             "age": 1.0}
    return Row(pk, **plain | changes)


def test_a_place_holds_when_units_come_before_it():
    table = [unit(pk) for pk in range(1, 11)]                     # 10 is shown first
    first = find(indexed(table), {}, sort="age", size=3)
    more = indexed([unit(pk) for pk in range(11, 20)], indexed(table))
    assert find(more, {}, sort="age", size=3, after=first.after).pks == [7, 6, 5]


def test_a_place_holds_when_its_unit_is_gone():
    table = [unit(pk) for pk in range(1, 11)]
    index = indexed(table)
    after = find(index, {}, sort="age", size=3).after              # 8 was the last
    gone = indexed([unit(8, is_listed=False)], index)
    assert find(gone, {}, sort="age", size=3, after=after).pks == [7, 6, 5]


def test_unknown_values_come_last_and_have_a_page():
    table = [unit(1, power=None), unit(2, power=5.0), unit(3, power=None)]
    seen = pages(indexed(table), {}, "power", 1)
    assert [page.pks for page in seen] == [[2], [3], [1]]


def test_the_second_page_knows_that_the_first_comes_before():
    index = indexed([unit(pk) for pk in range(1, 5)])
    second = find(index, {}, sort="age", size=2, after=find(index, {}, sort="age", size=2).after)
    assert second.before == START


def test_of_many_values_the_most_frequent_and_the_chosen_are_counted():
    table = [unit(pk, chip=f"c{pk // 2}") for pk in range(2, 200)]
    found = find(indexed([*table, unit(300, chip="rare")]), {"chip": ("rare",)}, sort="age")
    assert len(found.counts["chip"]) == 51 and found.counts["chip"]["rare"] == 1


@pytest.mark.parametrize("place", ["x", "1", "nan_3", "1_x", "1_" + "9" * 400, "_", "1e400000_x"])
def test_what_is_no_place_is_refused(place):
    with pytest.raises(BadPlace):
        find(indexed([unit(1)]), {}, sort="age", after=place)


@pytest.mark.parametrize("place", ["x", "-1", "1_2", "٣", "9" * 30])
def test_in_the_order_of_a_search_places_are_numbers(place):
    with pytest.raises(BadPlace):
        find(indexed([unit(1)]), {}, sort=RANK, after=place, within=[1])


def test_an_unknown_facet_or_order_is_a_mistake_of_the_caller():
    index = indexed([unit(1)])
    with pytest.raises(KeyError):
        find(index, {"colour": ("red",)}, sort="age")
    with pytest.raises(KeyError):
        find(index, {}, sort="colour")


def test_an_empty_index_has_an_empty_page_and_no_counts():
    found = find(indexed([]), {"word": ("yes",)}, sort="age")
    assert (found.total, found.pks, found.after, found.before) == (0, [], "", "")
    assert found.counts == {facet.code: {} for facet in FACETS} | {"word": {"yes": 0}}
