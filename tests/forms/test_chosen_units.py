"""Which units an address names, and what is said where it cannot be read."""
import pytest

from teardowns.forms.chosen_units import MOST, Chosen, named, read_choice, written


def units(*texts):
    return written(read_choice(texts).units)


@pytest.mark.parametrize(("texts", "asked"), [
    (["3,8,12"], "3,8,12"), (["12", "3"], "12,3"), (["3 8;12 ,"], "3,8,12"), (["3v2,3"], "3v2,3"),
    (["3V02"], "3v2"), ([], ""), ([""], ""), (["007"], "7"),
])
def test_numbers_are_read_in_their_order(texts, asked):
    choice = read_choice(texts)
    assert written(choice.units) == asked
    assert choice.problems == ()


@pytest.mark.parametrize("piece", [
    "abc", "-3", "3.5", "3v", "v2", "0", "²", "٣", "9" * 10, "3v2v3"])
def test_what_is_no_number_of_a_unit_is_named_and_the_rest_kept(piece):
    choice = read_choice([f"3,{piece},8"])
    assert written(choice.units) == "3,8"
    assert choice.problems[0].startswith(f"“{piece}”") and "12v2" in choice.problems[0]


def test_much_that_is_unreadable_is_one_short_sentence():
    problem, = read_choice([",".join(["x" * 500, *(f"y{i}" for i in range(90))])]).problems
    assert "“" + "x" * 20 + "…”" in problem and "and 88 more" in problem and len(problem) < 300


def test_a_unit_that_is_named_twice_is_shown_once():
    choice = read_choice(["3,8,3,3"])
    assert written(choice.units) == "3,8"
    assert choice.problems == ("Unit 3: asked for more than once, and shown once.",)


def test_a_seventh_unit_is_left_out_and_named():
    choice = read_choice(["1,2,3,4,5,6,7"])
    assert len(choice.units) == MOST
    assert "Left out: unit 7" in choice.problems[0] and "make room" in choice.problems[0]


def test_one_that_is_not_there_takes_nobodys_place_and_is_told_of():
    choice = read_choice(["1,2,3,4,5,6,7,8,9"], lambda pks: pks - {1, 4, 9})
    assert written(choice.units) == "1,2,3,4,5,6,7,8,9" and not choice.problems
    choice = read_choice(["1,2,3,4,5,6,7,8"], lambda pks: pks - {1})
    assert written(choice.units) == "1,2,3,4,5,6,7"
    assert "Left out: unit 8." in choice.problems[0]


def test_nobody_is_asked_where_all_fit():
    assert len(read_choice(["1,2,3,4,5,6"], lambda pks: 1 / 0).units) == MOST


def test_thousands_of_units_are_not_all_named():
    problem, = read_choice([",".join(map(str, range(1, 5000)))]).problems
    assert "unit 7; unit 8" in problem and "and 4987 more" in problem and len(problem) < 300


def test_units_in_words():
    assert named([Chosen(3)]) == "unit 3"
    assert named([Chosen(3), Chosen(8, "2")]) == "unit 3 and unit 8, version 2"
    assert named([Chosen(1), Chosen(2), Chosen(3)]) == "unit 1; unit 2 and unit 3"
