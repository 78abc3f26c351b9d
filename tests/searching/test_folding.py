import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.searching.folding import LOOK_ALIKE, MISREAD, as_read, folded, looks_like, plain


@pytest.mark.parametrize(("one", "other"), [
    ("O", "0"), ("o", "0"), ("Q", "0"), ("D", "0"), ("I", "1"), ("l", "1"), ("L", "1"), ("S", "5"),
    ("B", "8"), ("Z", "2"), ("G", "6"), ("I", "l"),
])
def test_letters_and_digits_that_are_taken_for_each_other_fold_to_one_sign(one, other):
    assert folded(one) == folded(other)


@pytest.mark.parametrize(("printed", "typed"), [
    ("PZ6318", "P26318"), ("VQ-4S", "vq-45"), ("S0B-8", "508-B"), ("MODEL LI0", "model 1IO"),
])
def test_a_marking_and_its_misreading_fold_to_the_same(printed, typed):
    assert folded(printed) == folded(typed)


def test_signs_between_words_are_no_letters():
    assert folded("OUTPUT! USB-C1|USB-C2") == "0utput! u58-c1|u58-c2"


def test_other_letters_stay_apart():
    """What no row of the table names: 16 Latin letters, and 3, 4, 7, 9."""
    apart = set(string.ascii_lowercase + string.digits) - set("".join(MISREAD.values())) - set(
        MISREAD)
    assert apart == set("acefhjkmnprtuvwxy3479")
    assert {folded(letter) for letter in apart} == apart


def test_accents_and_case_and_width_carry_no_meaning():
    # É is E with an acute accent; Ｖ４５ are the full-width forms of Unicode Standard Annex 15.
    assert plain("Éclair Ｖ４５") == "eclair v45"


def test_a_capital_of_another_alphabet_folds_to_the_latin_one_that_looks_like_it():
    assert folded("СОРА") == folded("COPA")           # Cyrillic, Latin
    assert folded("ΑΒΕ") == folded("ABE")             # Greek, Latin
    assert plain("СОРА") != plain("COPA")             # typed well, they are two words


def test_the_micro_sign_is_typed_as_u():
    assert plain("10µF") == plain("10μF") == "10uf"   # U+00B5, U+03BC


def test_a_capital_that_becomes_two_small_letters_stays_one():
    assert plain("İSI") == "isi"                      # U+0130, the dotted capital


def test_a_sigma_is_the_same_within_a_word_and_at_its_end():
    assert plain("ΟΔΟΣ") == plain("οδος") == plain("οδοσ")


def test_an_accent_that_stands_apart_is_joined_to_its_letter():
    assert plain(as_read("e\u0301")) == "e"


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_places_in_the_plain_and_in_the_folded_text_are_places_in_the_text(text):
    assert len(plain(text)) == len(folded(text)) == len(text)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_folding_twice_changes_nothing_more(text):
    assert folded(folded(text)) == folded(text)


def test_every_letter_of_a_class_looks_like_each_other():
    for sign, letters in MISREAD.items():
        assert set(sign + letters) <= set(looks_like(sign))
        assert all(set(looks_like(letter)) == set(looks_like(sign)) for letter in letters)


def test_what_looks_alike_leads_to_one_small_latin_letter():
    assert all(len(letter) == len(latin) == 1 and latin in string.ascii_lowercase
               for letter, latin in LOOK_ALIKE.items())
