"""The words go to the search, the choices to the index."""
import pytest

from teardowns.browsing.orders import BadPlace
from teardowns.services import find_units as service
from teardowns.services.find_units import find_units, matching
from tests.views.listed import listed

pytestmark = pytest.mark.django_db


def test_without_words_the_newest_come_first():
    old, new = listed("old", day=1), listed("new", day=2)
    answer = find_units("", {})
    assert answer.found.pks == [new.pk, old.pk] and answer.hits is None and answer.remarks == []


def test_with_words_the_best_come_first_unless_another_order_is_asked_for():
    inside, title = listed("Other", day=1, printed="corven"), listed("Corven", day=0)
    assert set(find_units("corven", {}).found.pks) == {inside.pk, title.pk}
    assert find_units("corven", {}).found.pks == find_units("corven", {}).hits.units
    assert find_units("corven", {}, sort="newest").found.pks == [inside.pk, title.pk]


def test_that_only_the_best_are_counted_is_said(monkeypatch):
    cut = service.search
    monkeypatch.setattr(service, "search", lambda text: cut(text, limit=1))
    for number in range(3):
        listed(f"Corven {number}")
    answer = find_units("corven", {})
    assert answer.found.total == 1 and "More than 1 units" in answer.remarks[-1]


def test_a_page_says_which_of_all_it_begins_with():
    for day in range(5):
        listed(f"Unit {day}", day=day)
    first = find_units("", {}, size=2).found
    second = find_units("", {}, size=2, after=first.after).found
    assert (first.first, second.first, second.total) == (1, 3, 5)


def test_a_place_that_is_none_is_refused():
    with pytest.raises(BadPlace):
        find_units("", {}, after="two")


def test_matching_finds_all_or_those_among_some():
    units = [listed(f"Corven {number}", verdict="doubtful") for number in range(30)]
    listed("Corven other", verdict="possible")
    pks = {unit.pk for unit in units}
    assert set(matching("corven", {"verdict": ["doubtful"]})) == pks
    assert matching("", {"verdict": ["doubtful"]}, {units[3].pk, 10**6}) == [units[3].pk]
    assert matching("corven", {"colour": ["red"]}) == []
