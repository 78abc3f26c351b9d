"""Units that are like another one, found by an inverted index and compared in full."""
import pytest

from teardowns.likeness.sentences import sentence
from teardowns.services.index_likeness import count_words, index_likeness
from teardowns.services.similar_units import similar_units
from tests.likenesses import board, strangers

pytestmark = pytest.mark.django_db


@pytest.fixture
def boards(alice):
    """Two alike, one with another transformer, and strangers."""
    made = [board(alice, "One"), board(alice, "Two"),
            board(alice, "Three", core="EE19", turns=80.0), *strangers(alice)]
    index_likeness([unit.pk for unit in made])
    return made


def test_the_unit_with_the_same_board_comes_first_and_strangers_do_not_come(boards):
    found = similar_units(boards[0].pk, least=0.0)
    assert [one.unit_pk for one in found] == [boards[1].pk, boards[2].pk]
    assert found[0].score > 0.6 > found[1].score


def test_it_says_what_speaks_for_and_against(boards):
    found = {one.unit_pk: one for one in similar_units(boards[0].pk, least=0.0)}
    third = found[boards[2].pk].comparison
    assert "Primary controller marked UWK-12 in both." in map(sentence, third.speaks_for)
    assert "Core marked: EE16 here, EE19 there." in map(sentence, third.speaks_against)
    assert third.speaks_against[0].our_refs == ("component/core",)


def test_it_finds_the_same_before_and_after_words_were_counted(boards):
    before = similar_units(boards[0].pk)
    count_words()
    assert similar_units(boards[0].pk) == before


def test_a_unit_that_is_not_public_is_like_nobody(unit, boards):
    assert similar_units(unit.pk) == []


def test_five_queries_suffice(boards, django_assert_max_num_queries):
    count_words()
    with django_assert_max_num_queries(5):
        similar_units(boards[0].pk)
