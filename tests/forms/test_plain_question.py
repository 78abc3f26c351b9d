"""A question in words: a person answers it, and what was not asked is not answered."""
import time
from unittest.mock import patch

import pytest
from django.core import signing

from teardowns.forms.plain_question import METALS, NUMBERS, PlainQuestion


def right_answer(question):
    words = question.text.partition(": ")[2].rstrip("?").split(", ")
    return sum(word in METALS for word in words)


@pytest.mark.parametrize("in_words", [False, True])
def test_the_number_or_its_word_answers_it(in_words):
    asked = PlainQuestion()
    n = right_answer(asked)
    typed = f" {NUMBERS[n].title()} " if in_words else str(n)
    assert PlainQuestion({"question": asked.token, "answer": typed}).is_answered


@pytest.mark.parametrize("typed", ["", "0", "-1", "copper", "²", "1e0", "9"])
def test_anything_else_does_not(typed):
    asked = PlainQuestion()
    after = PlainQuestion({"question": asked.token, "answer": typed})
    assert not after.is_answered and after.error and after.token != asked.token


def test_the_page_does_not_tell_the_answer():
    asked = PlainQuestion()
    nonce, sealed = signing.loads(asked.token, salt="plain-question")
    assert str(right_answer(asked)) not in (nonce, sealed) and len(sealed) == 64


@pytest.mark.parametrize("token", ["", "x", "a:b:c"])
def test_a_question_that_was_not_asked_here_is_not_answered(token):
    assert not PlainQuestion({"question": token, "answer": "2"}).is_answered


def test_it_holds_for_an_hour():
    asked = PlainQuestion()
    with patch("django.core.signing.time.time", return_value=time.time() + 3700):
        after = PlainQuestion({"question": asked.token, "answer": str(right_answer(asked))})
    assert not after.is_answered


def test_on_a_fresh_page_nothing_is_wrong_yet():
    assert PlainQuestion().error == ""
