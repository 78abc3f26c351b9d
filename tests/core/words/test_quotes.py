"""Quotation marks follow the language; a quotation keeps what stands in it."""
from django.utils.translation import override

from core.templatetags.said import said as said_filter
from core.words.as_written import AsWritten, Quoted
from core.words.quotes import quotes_in
from core.words.said import Catalogue, said


def test_german_opens_below_and_closes_above():
    assert quotes_in("de", "“5V 3A” and “20W”") == "„5V 3A“ and „20W“"


def test_what_is_german_already_stays():
    assert quotes_in("de", "„5V“ und “9V”") == "„5V“ und „9V“"


def test_marks_inside_of_a_quotation_are_its_own():
    assert quotes_in("de", "“the “fast” one”") == "„the “fast” one“"


def test_english_stays_and_a_mark_alone_stays():
    assert quotes_in("en", "“5V”") == "“5V”" and quotes_in("de", "5” and “6") == "5” and “6"


def test_a_sentence_of_a_pattern_gets_them_too():
    german = Catalogue("de", {"the claim {claim}": "die Angabe {claim!s}"})
    assert german.say("the claim “5V 3A”") == "die Angabe „5V 3A“"


def test_what_a_person_wrote_keeps_its_marks_and_our_own_around_it_follow():
    with override("de"):
        assert said(AsWritten("a “fast” one")) == "a “fast” one"
        assert said_filter(Quoted("a “fast” one")) == "„a “fast” one“"
    with override("en"):
        assert said_filter(Quoted("5V 3A")) == "“5V 3A”"
