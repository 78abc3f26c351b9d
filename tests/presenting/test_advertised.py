"""Words from public logs and driver sources, one of each kind; see
tests/engine/physics/test_power_objects.py.
"""
import pytest

from teardowns.presenting.advertised import advertised_words


@pytest.mark.parametrize("word, words", [
    ("0A01912C", "5 V 3 A"), ("8F0190C8", "5 to 12 V 2 A, variable"),
    ("4F01903C", "5 to 12 V 15 W, battery"), ("C0DC213C", "3.3 to 11 V 3 A"),
    ("C9A43741", "5.5 to 21 V 3.25 A, power-limited"),
    ("D230968C", "15 to 28 V 140 W, adjustable"),
    ("E004B145", "9 to 15 V 3 A, 3.25 A to 20 V, adjustable"),
])
def test_an_object_is_told_in_words_with_its_word_beside(word, words):
    assert advertised_words([word])[0].replace("\u202f", " ") == f"{words} ({word})"


def test_the_words_keep_their_order():
    assert [text[:1] for text in advertised_words(["0A01912C", "0002D12C"])] == ["5", "9"]


@pytest.mark.parametrize("word, told", [
    ("zz", "“zz” is no 32-bit word"), ("F0000001", "not defined"), ("00000000", "leave it out")])
def test_what_cannot_be_read_says_why(word, told):
    assert told in advertised_words([word])[0]


def test_no_words_are_no_text():
    assert advertised_words([]) == []
