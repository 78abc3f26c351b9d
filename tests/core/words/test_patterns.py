"""Patterns of sentences: what fits, which of several, and what is filled in."""
import re

import pytest

from core.words.patterns import Patterns, pattern

SENTENCE_END = re.compile(r"\. (?=[A-Z])")


def first(pairs, text):
    return next(Patterns(pairs.items()).matches(text))


def test_a_place_takes_what_stood_there():
    pairs = {"{label} was not recorded.": "Nicht erfasst: {label}."}
    match = first(pairs, "Mass was not recorded.")
    assert match.values == {"label": "Mass"} and match.said == ["label"]
    assert match.filled({"label": "Masse"}) == "Nicht erfasst: Masse."


def test_what_is_to_stay_as_it_stands_is_not_said():
    match = first({"no such role: {role}": "keine solche Rolle: {role!s}"}, "no such role: king")
    assert match.said == [] and match.filled({}) == "keine solche Rolle: king"


def test_places_may_change_their_order():
    match = first({"{n} of {all} points": "von {all} Punkten {n}"}, "3 of 12 points")
    assert match.filled({"n": "3", "all": "12"}) == "von 12 Punkten 3"


def test_the_pattern_that_says_most_stands_first():
    pairs = {"{p} of input": "lang", "{claim} of output fits {drawn} of input.": "am längsten",
             "{p} fits {p_2}": "kurz"}
    found = Patterns(pairs.items()).matches("5 W of output fits 20 VA of input.")
    assert [match.translation for match in found] == ["am längsten", "kurz"]


def test_of_two_that_say_as_much_the_same_stands_first_in_any_order():
    pairs = [("at {p} W", "eins"), ("{p} at W", "zwei")]
    for some in (pairs, pairs[::-1]):
        assert next(Patterns(some).matches("at at W")).translation == "eins"


def test_a_word_that_is_missing_rules_a_pattern_out():
    assert pattern("the {p} fails", "").words == {"the", "fails"}
    assert not list(Patterns([("the {p} fails", "")]).matches("the part holds"))


def test_a_word_that_a_place_continues_is_not_asked_for():
    assert pattern("layer{s} {places}", "").words == set()
    assert first({"layer{s} {places}": "Lagen {places}"}, "layers 1").values["places"] == "1"


def test_signs_of_a_sentence_are_no_signs_of_a_regular_expression():
    assert first({"{p} (at most) + {p_2}?": "x"}, "5 A (at most) + 2 A?").values == {
        "p": "5 A", "p_2": "2 A"}


@pytest.mark.parametrize(("text", "reading", "figure"), [
    ("comes to 6.20 ± 0.10 mm; the figure is 3 mm.", "6.20 ± 0.10 mm", "; the figure is 3 mm"),
    ("comes to 6.20 ± 0.10 mm.", "6.20 ± 0.10 mm", ""),
])
def test_of_two_places_side_by_side_the_second_is_a_clause(text, reading, figure):
    match = first({"comes to {reading}{figure}.": "x"}, text)
    assert (match.values["reading"], match.values["figure"]) == (reading, figure)


@pytest.mark.parametrize(("text", "mains", "end"), [
    ("At 100 V, the lower", "100 V", "the lower"),
    ("At 220 V (assumed, not read), the lower", "220 V (assumed, not read)", "the lower"),
    ("At 9 V (a, (b, c)), the upper", "9 V (a, (b, c))", "the upper"),
])
def test_a_bracket_that_opens_at_a_place_closes_there(text, mains, end):
    match = first({"At {mains}, {end}": "x"}, text)
    assert (match.values["mains"], match.values["end"]) == (mains, end)


def test_a_place_that_takes_in_the_next_sentence_is_told():
    pairs = {"It comes to {reading}.": "x"}
    assert first(pairs, "It comes to 3 mm. It meets the figure.").takes_in(SENTENCE_END)
    assert not first(pairs, "It comes to 3 mm.").takes_in(SENTENCE_END)


def test_many_patterns_are_looked_through_by_their_words():
    many = Patterns((f"the {word}s of {{p}} hold", word) for word in ("fuse", "core", "wire"))
    assert [match.translation for match in many.matches("the cores of two units hold")] == ["core"]
