"""A plate's text and a marking: one of the two is needed, and both have an end."""
import pytest

from teardowns.forms.plate_search_form import MOST_MARKING, MOST_TEXT, PlateSearchForm


def errors(text="", marking=""):
    return PlateSearchForm({"text": text, "marking": marking}).errors


@pytest.mark.parametrize("asked", [{"text": "5V 3A"}, {"marking": "ZHB-1"},
                                   {"text": "x" * MOST_TEXT, "marking": "y" * MOST_MARKING}])
def test_a_text_or_a_marking_is_enough(asked):
    assert not errors(**asked)


def test_without_either_there_is_nothing_to_look_for():
    assert "text" in errors() and "text" in errors(text=" \n ")


def test_what_is_too_long_is_counted_and_the_remedy_named():
    message, = errors(text="x" * (MOST_TEXT + 1))["text"]
    assert str(MOST_TEXT + 1) in message and "leave" in message
    assert "marking" in errors(text="5V", marking="y" * (MOST_MARKING + 1))


def test_a_character_that_cannot_be_looked_for_is_said():
    assert "type the words" in errors(text="a\x00b")["text"][0]
