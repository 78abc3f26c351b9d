import pytest

from teardowns.searching.misread_numbers import corrected_numbers


@pytest.mark.parametrize(("typed", "meant"), [
    ("5V=2.IA", "5V=2.1A"), ("OUTPUT: I2V 1A", "OUTPUT: 12V 1A"), ("1OO-240V", "100-240V"),
    ("2S0V", "250V"), ("6S W", "65 W"), ("1OOOmA", "1000mA"),
])
def test_a_letter_in_a_number_with_a_unit_is_read_as_the_digit_it_looks_like(typed, meant):
    assert corrected_numbers(typed) == meant


@pytest.mark.parametrize("text", [
    "MODEL S5", "VQ-45 B8", "Output: 5V 2.1A", "SOLO 5V", "IS 12V", "B V", "",
])
def test_models_words_and_sound_numbers_stay(text):
    assert corrected_numbers(text) == text
