"""Facets and their errors, as every page that narrows units down prints them."""
import pytest

from teardowns.filters import list_query
from teardowns.models import BoardFamily
from teardowns.services.facets import FACETS
from teardowns.views.narrowing import conditions, facets, wrong_choices

COUNTS = {code: {} for code in FACETS} | {"verdict": {"doubtful": 3}}


def test_every_facet_is_offered_and_what_was_chosen_is_ticked():
    markup = facets(list_query("verdict=doubtful"), COUNTS)
    assert markup.count('<details class="facet"') == len(FACETS)
    assert 'value="doubtful" checked' in markup


def test_a_wrong_choice_is_told_with_the_name_of_its_facet():
    asked = list_query("verdict=splendid&sort=nonsense&q=" + "x" * 200)
    told, = wrong_choices(asked)
    assert told.startswith(f"{FACETS['verdict'].label}: “splendid”")
    assert wrong_choices(list_query("verdict=doubtful")) == []


@pytest.mark.django_db
def test_a_family_stands_there_by_its_name_which_is_said_in_no_language(alice):
    BoardFamily.objects.create(name="Fuse", slug="board-a", curator=alice)
    asked = list_query("family=board-a&family=gone")
    markup = facets(asked, COUNTS | {"family": {"board-a": 2, "gone": 1}})
    assert 'value="board-a"' in markup and ">Fuse" in markup and ">gone" in markup
    assert [str(words) for _, words, _ in conditions(asked)] == ["Fuse", "gone"]


@pytest.mark.django_db
def test_names_are_asked_for_once_for_each_state_of_the_listing(alice, django_assert_num_queries):
    BoardFamily.objects.create(name="Fuse", slug="board-a", curator=alice)
    asked, counts, state = list_query(""), COUNTS | {"family": {"board-a": 2}}, object()
    with django_assert_num_queries(1):
        assert facets(asked, counts, state) == facets(asked, counts, state)
    BoardFamily.objects.update(name="Fuse II")
    assert ">Fuse II" in facets(asked, counts, object())
