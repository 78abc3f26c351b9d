import pytest

from teardowns.models import Findable, SearchText
from teardowns.services.search_suggestions import completions, meant_by, suggestions
from tests.indexed import indexed

pytestmark = pytest.mark.django_db


@pytest.fixture
def units():
    indexed(1, "Desk charger", makers=["Umberlisk"], models=["Hub 65"], lines=["isolated supply"])
    indexed(2, "Wall charger", makers=["Brethuld"], models=["B5"])
    indexed(1, "PZ6318", kind=Findable.PART, markings=["PZ6318"])


@pytest.mark.parametrize(("typed", "meant"), [
    ("umbrelisk", ["Umberlisk"]),           # two letters swapped
    ("umberlsk", ["Umberlisk"]), ("unberlisk", ["Umberlisk"]),
    ("umberliskk", ["Umberlisk"]), ("Desk chrger", ["Desk charger"]),
    ("umbrelisk chrger", ["Umberlisk charger"]), ("umbrelisk 65", ["Umberlisk 65"]),
    ("pz6381", ["PZ6318"]),
])
def test_the_nearest_known_words_are_meant(units, typed, meant):
    assert meant_by(typed) == meant


@pytest.mark.parametrize("typed", ["umberlisk", "xyzzy", "xq", "💥", "", "umbrelisk brethuld"])
def test_nothing_is_meant_by_known_words_far_ones_or_what_nothing_has_together(units, typed):
    assert meant_by(typed) == []


@pytest.mark.parametrize(("typed", "goes_on"), [
    ("umb", ["Umberlisk", "Umberlisk Hub 65"]), ("umberlisk h", ["Umberlisk Hub 65"]),
    ("pz", ["PZ6318"]), ("desk ch", ["desk charger"]), ("iso", ["isolated"]), ("b", []), ("%", []),
])
def test_names_come_before_words_and_go_on_from_what_is_typed(units, typed, goes_on):
    assert completions(typed) == goes_on


def test_what_is_not_public_any_more_is_not_offered(units):
    SearchText.objects.of(Findable.UNIT, [1]).delete()
    assert completions("umb") == meant_by("umbrelisk") == []


def test_completions_come_first_and_nothing_twice(units):
    found = suggestions("umberl")
    assert [one.text for one in found] == ["Umberlisk", "Umberlisk Hub 65"]
    assert all(one.is_completion for one in found)


@pytest.mark.parametrize("typed", ["%", "_", "' OR 1=1 --", "a" * 10_000, "\x00", "umb%", "(" * 99])
def test_no_text_breaks_the_suggestions(units, typed):
    assert all(one.text for one in suggestions(typed))


@pytest.mark.parametrize("typed", [
    "umbrelisk chrger", "umbrelisk chrger umberlsk chagrer unberlisk charegr brethuls isolatd",
])
def test_suggestions_take_as_many_queries_for_eight_words_as_for_two(
        units, typed, django_assert_max_num_queries):
    with django_assert_max_num_queries(6):
        suggestions(typed)
