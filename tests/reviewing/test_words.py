"""What last words make of a row."""
import itertools

import pytest

from teardowns.reviewing.words import (
    Row,
    Word,
    last_words,
    lies_within,
    reading_agrees,
    state_of,
)

ALICE, RITA, ROLF = 1, 2, 3
ROW = Row("measurement/mass", 2, ALICE)


def word(decision, reviewer=RITA, version=2, **more):
    return Word(ROW.ref, version, reviewer, decision, **more)


CASES = [
    ([], "open"),
    (["confirmed"], "confirmed"),
    (["disputed"], "disputed"),
    (["confirmed", "disputed"], "disputed"),
    (["confirmed", "confirmed"], "confirmed"),
    (["agrees"], "remeasured"),
    (["agrees", "confirmed"], "confirmed"),
    (["agrees", "disputed"], "disputed"),
    (["differs"], "disputed"),
    (["differs", "confirmed"], "disputed"),
    (["unknown"], "open"),
    (["unknown", "confirmed"], "confirmed"),
    (["unknown", "agrees"], "remeasured"),
]
READINGS = {"agrees": True, "differs": False, "unknown": None}


def said(name, reviewer):
    if name in READINGS:
        return word("remeasured", reviewer, agrees=READINGS[name])
    return word(name, reviewer)


@pytest.mark.parametrize(("names", "state"), CASES)
def test_a_row_has_the_state_that_its_last_words_give_it(names, state):
    for order in itertools.permutations(names):
        assert state_of([said(name, at) for at, name in enumerate(order)]) == state


def test_the_last_word_of_a_reviewer_takes_the_place_of_the_first():
    assert last_words(ROW, [word("disputed"), word("confirmed")])[RITA].decision == "confirmed"


def test_words_on_another_version_or_row_do_not_count():
    other = Word("measurement/length", 2, RITA, "confirmed")
    assert last_words(ROW, [word("confirmed", version=1), other]) == {}


def test_nobodys_word_on_a_row_of_their_own_counts():
    assert last_words(ROW, [word("confirmed", ALICE)]) == {}


def test_the_author_of_the_work_counts_on_no_row_of_it():
    assert last_words(ROW, [word("confirmed", ROLF)], contributor=ROLF) == {}


@pytest.mark.parametrize(("second", "agrees"), [
    # u of both 0.1: 2 · √(0.1² + 0.1²) = 0.283
    (3.28, True), (3.29, False), (2.72, True), (2.71, False),
])
def test_readings_agree_within_twice_their_joint_uncertainty(second, agrees):
    assert reading_agrees(3.0, 0.1, second, 0.1) is agrees


@pytest.mark.parametrize("readings", [
    (3.0, None, 3.0, 0.1), (3.0, 0.1, 3.0, None), (3.0, 0.0, 3.0, 0.0), (None, None, 3.0, 0.1)])
def test_without_both_uncertainties_it_cannot_be_told_whether_readings_agree(readings):
    assert reading_agrees(*readings) is None


@pytest.mark.parametrize("kind, value, u, agrees", [
    ("above", 7.0, None, True), ("at_least", 5.0, None, True), ("above", 4.0, None, False),
    ("below", 4.0, None, True), ("at_most", 6.0, 0.1, False),
    ("above", 5.1, 0.1, None),                  # 0.1 beyond it, and ± 0.2 at 95 %
])
def test_a_second_reading_lies_on_the_side_of_a_limit_or_not(kind, value, u, agrees):
    assert lies_within(kind, 5.0, value, u) is agrees
