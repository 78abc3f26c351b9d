"""The list of units in words."""
import pytest

from teardowns.presenting.list_words import name_of, narrowed, number_of, options, span


@pytest.mark.parametrize(("units", "words"), [
    (0, "0 units"), (1, "1 unit"), (35, "35 units"), (1234567, "1\u202f234\u202f567 units")])
def test_thousands_are_set_apart(units, words):
    assert number_of(units) == words


@pytest.mark.parametrize(("place", "words"), [
    ((26, 25, 1234), "26 to 50 of 1\u202f234"), ((26, 5, 30), "26 to 30 of 30"),
    ((1, 30, 30), ""), ((1, 0, 0), "")])
def test_a_page_says_which_units_it_shows_unless_it_shows_all(place, words):
    assert span(*place) == words


def test_what_was_typed_is_escaped():
    markup = narrowed([("Search", "<i>", "?a=1&b=2")])
    assert "<i>" not in markup and 'href="?a=1&amp;b=2"' in markup


def test_a_search_is_named_after_what_narrows_it_and_not_too_long():
    assert name_of([("Search", "corven", ""), ("Kind", "other", "")]) == "corven · other"
    assert len(name_of([("Search", "x" * 300, "")])) == 120


def test_the_order_in_use_is_selected():
    assert options([("a", "A"), ("b", "B")], "b") == (
        '<option value="a">A</option><option value="b" selected>B</option>')
