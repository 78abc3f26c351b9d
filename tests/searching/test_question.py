import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.searching.question import (
    CUT,
    CUT_LETTERS,
    NOTHING,
    TOO_LONG,
    Word,
    read_question,
)


def wholes(text):
    return [word.whole for word in read_question(text).words]


def test_words_stand_in_their_order_and_the_last_may_be_half_typed():
    assert read_question("Hub vq-45").words == (
        Word("hub", ("hub",)), Word("vq45", ("vq", "45"), is_start=True))


@pytest.mark.parametrize("text", ["hub ", "hub 5", 'vq "hub"', "hub!"])
def test_a_word_that_is_finished_or_one_letter_long_is_no_beginning(text):
    assert not any(word.is_start for word in read_question(text).words)


def test_quoted_words_are_a_phrase_and_asked_for_as_words_too():
    question = read_question('“Hub  65” desk')
    assert question.phrases == ("hub 65",)
    assert wholes('“Hub  65” desk') == ["hub", "65", "desk"]


def test_a_quotation_mark_without_its_other_is_no_phrase():
    assert read_question('hub "65').phrases == ()
    assert wholes('hub "65') == ["hub", "65"]


@pytest.mark.parametrize(("text", "remark"), [
    ("(((", NOTHING), ("💥", NOTHING), ("\x00\x1b", NOTHING), ('""', NOTHING), ("", ""), ("  ", ""),
    ("a" * 10_000, TOO_LONG), ("one two three four five six seven eight nine", CUT),
    ("one " * 100, CUT_LETTERS),
])
def test_what_cannot_be_asked_is_said(text, remark):
    assert read_question(text).remark == remark


def test_the_whole_is_a_name_as_well():
    assert read_question("Veltrice VQ-45").name == "veltricevq45"


@settings(max_examples=80, deadline=None)
@given(st.text(alphabet=st.characters(exclude_categories=()), max_size=60))
def test_whatever_is_typed_comes_to_letters_and_digits_alone(text):
    question = read_question(text)
    letters = "".join(word.whole + "".join(word.pieces) for word in question.words)
    assert all(letter.isalnum() or letter == "." for letter in letters)
    assert len(question.words) <= 8
