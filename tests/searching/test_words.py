import pytest

from teardowns.searching.words import LONGEST, chunks_of, run_together, words_of


@pytest.mark.parametrize("spelt", ["VQ-45C", "vq 45c", "VQ/45.C", "Vq_45C"])
def test_a_marking_is_the_same_however_its_letters_are_parted(spelt):
    assert run_together(spelt) == "vq45c"


def test_a_marking_with_signs_in_it_is_found_whole_and_by_its_pieces():
    assert words_of("ZHB-1 T") == ["zhb", "1", "t", "zhb1"]


@pytest.mark.parametrize(("printed", "word"), [
    ("12 W", "12w"), ("12W", "12w"), ("2.40 A", "2.4a"), ("2,4A", "2.4a"), ("47 µF", "47uf"),
    ("10000 mAh", "10000mah"), ("5.0V", "5v"),
    ("2.4", "2.4"),
])
def test_a_number_and_its_unit_are_one_word_however_they_are_written(printed, word):
    assert word in words_of(printed)
    assert chunks_of(printed) == [(word, (word,))]


def test_a_decimal_is_not_the_whole_number_of_its_digits():
    assert not {"24", "24a"} & set(words_of("2.4A 2.4 2,4 A"))


def test_what_is_no_quantity_stays_as_it_is():
    assert chunks_of("model 3v2b, a12 wall") == [
        ("model", ("model",)), ("3v2b", ("3v2b",)), ("a12", ("a12",)), ("wall", ("wall",))]


def test_a_word_that_nobody_types_is_none():
    assert words_of("x" * (LONGEST + 1)) == []
    assert words_of("⎓ ⧈ … — 💥") == []
