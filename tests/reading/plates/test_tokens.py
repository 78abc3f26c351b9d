import pytest

from teardowns.reading.plates.tokens import tokenise
from tests.reading.plates.hostile import PIECES


def cut(text):
    return [(token.kind, token.value) for token in tokenise(text)]


def test_numbers_units_and_signs_are_cut_apart():
    assert cut("5V⎓2.4A") == [
        ("number", "5"), ("unit", "V"), ("sign", "⎓"), ("number", "2.4"), ("unit", "A"),
    ]  # fmt: skip


def test_a_unit_may_carry_its_kind_of_current():
    assert cut("12VDC") == [("number", "12"), ("unit", "V"), ("nature", "dc")]


def test_a_comma_between_ratings_is_no_decimal_point():
    assert [value for kind, value in cut("5V,9V") if kind == "number"] == ["5", "9"]


def test_three_short_numbers_between_commas_are_three_numbers():
    assert [value for kind, value in cut("5,9,12V") if kind == "number"] == ["5", "9", "12"]


@pytest.mark.parametrize("text", ["5OV", "1l0V", "O.5A", "l00-240V"])
def test_a_letter_among_digits_is_marked(text):
    assert cut(text)[0][0] == "confused"


@pytest.mark.parametrize("text", ["Output", "I/O", "60 in", "Oil 5V"])
def test_ordinary_words_are_not(text):
    assert "confused" not in [kind for kind, _ in cut(text)]


@pytest.mark.parametrize("text", ["Model: UX-20C", "MODEL NO. UX-20C", "M/N:UX-20C", "Mod. UX-20C"])
def test_a_model_takes_its_name_along(text):
    assert cut(text) == [("model", "UX-20C")]


def test_the_word_model_in_a_sentence_names_nothing():
    assert "model" not in [kind for kind, _ in cut("this model supports two ports")]


def test_a_model_stops_before_a_quantity():
    assert cut("Model: Nova 5V")[0] == ("model", "Nova")


@pytest.mark.parametrize("piece", PIECES)
def test_no_character_of_the_longest_text_is_cut_twice_or_lost(piece):
    text = (piece * 4000)[:4000]
    tokens = tokenise(text)
    ends = [0, *(token.end for token in tokens)]
    for token, before in zip(tokens, ends, strict=False):
        assert token.start >= before and not text[before:token.start].strip()
    assert not text[ends[-1]:].strip()
