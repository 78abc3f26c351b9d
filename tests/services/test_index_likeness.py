"""The index of likeness follows what is public."""
import pytest

from teardowns.models import (
    CandidateState,
    Likeness,
    LikenessCount,
    LikenessWord,
    Lookalike,
    Photo,
    Status,
    Unit,
)
from teardowns.services.find_likenesses import find_likenesses
from teardowns.services.index_likeness import count_words, index_likeness
from tests.likenesses import board, component, strangers
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair(alice):
    """Two alike among strangers, found by a run of the job."""
    one, other = made = board(alice, "One"), board(alice, "Other")
    index_likeness([unit.pk for unit in (*made, *strangers(alice))])
    find_likenesses()
    return one, other


def put_away(unit):
    Unit.objects.filter(pk=unit.pk).update(status=Status.WITHDRAWN)
    return index_likeness([unit.pk])


def test_a_public_unit_is_indexed_once(alice):
    one = board(alice, "One")
    slots = [row[0] for row in Likeness.objects.get(unit=one).features]
    assert "marking/core" in slots and "size/primary_turns" in slots
    assert index_likeness([one.pk]) == 0


def test_a_draft_is_not_indexed(unit):
    component(unit, "core", "EE16")
    assert index_likeness([unit.pk]) == 0 and not Likeness.objects.exists()


def test_the_next_version_is_indexed_in_the_place_of_the_last(alice):
    one = board(alice, "One")
    index_likeness([one.pk])
    one.components.filter(role="core").update(marking="EE19")
    published(one)                       # which lists it, which indexes it
    shown = {row[0]: row[1] for row in Likeness.objects.get(unit=one).features}
    assert shown["marking/core"] == "EE19"


def test_a_unit_out_of_sight_leaves_nothing_behind(pair):
    one, other = pair
    assert Likeness.objects.get(unit=one).alike[0][0] == other.pk
    assert put_away(other) == 1
    assert Likeness.objects.get(unit=one).alike == []
    assert not Lookalike.objects.exists()
    assert not LikenessWord.objects.filter(unit=other).exists()


def test_what_a_moderator_decided_outlives_a_unit(pair, mona):
    one, other = pair
    Lookalike.objects.update(state=CandidateState.APART, decided_by=mona, reason="Two layouts.",
                             decided_at=one.changed_at)
    put_away(other)
    assert Lookalike.objects.get().state == CandidateState.APART


def photographed(unit, **fields):
    """Sixty-four bits that no other picture of a test has."""
    photo = Photo.objects.create(**{
        "unit": unit, "key": "board", "sha256": f"{unit.pk:064d}", "stage": "component_side",
        "perceptual_hash": 0x0F1E2D3C4B5A6978, "author": unit.contributor} | fields)
    published(unit)
    index_likeness([unit.pk], anew=True)
    return photo


def slots(unit):
    return [row[0] for row in Likeness.objects.get(unit=unit).features]


def test_photographs_of_a_board_are_compared_and_drawings_are_not(alice):
    one, other = board(alice, "One"), board(alice, "Other")
    photographed(one)
    photographed(other, drawn=True)
    assert "photo/component_side" in slots(one)
    assert "photo/component_side" not in slots(other)


def test_a_photo_that_was_taken_down_is_compared_no_more(alice):
    one = board(alice, "One")
    photo = photographed(one)
    Photo.objects.filter(pk=photo.pk).update(taken_down_at=one.changed_at)
    index_likeness([one.pk], anew=True)
    assert "photo/component_side" not in slots(one)


def test_words_are_counted_and_every_unit_with_them(alice):
    units = [board(alice, title) for title in ("One", "Two", "Three")]
    index_likeness([unit.pk for unit in units])
    count_words()
    assert LikenessCount.objects.get(word=LikenessCount.EVERY_UNIT).units == 3
    assert set(LikenessCount.objects.values_list("units", flat=True)) == {3}
