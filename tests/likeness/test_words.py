"""Words find what may be alike, and never miss what compares as the same within a few bins."""
from math import exp
from random import Random

from teardowns.likeness.features import Feature
from teardowns.likeness.words import words_of


def number(value, u=0.0):
    return Feature("size/primary_turns", "", value=value, u=u)


def picture(bits):
    return Feature("photo/component_side", "", picture=bits)


def test_equal_texts_share_a_word_and_slots_keep_apart():
    one = Feature("marking/core", "EE 16", "EE16")
    assert words_of(one) == words_of(Feature("marking/core", "EE-16", "EE16"))
    assert words_of(one) != words_of(Feature("marking/other", "EE16", "EE16"))


def test_numbers_whose_intervals_meet_share_a_word():
    """v' inside v ± 2 u lies in a bin that v's interval touches."""
    draw = Random(1)
    for _ in range(500):
        value, relative = 10 ** draw.uniform(-3, 3), draw.uniform(0.001, 0.05)
        other = value * (1 + draw.uniform(-1.99, 1.99) * relative)
        assert set(words_of(number(value, relative * value))) & set(words_of(number(other)))


def test_numbers_far_apart_share_none():
    """Bins are 5 % wide: 10 % apart are at least one bin between."""
    assert not set(words_of(number(1.0))) & set(words_of(number(exp(0.1001))))


def test_what_is_hardly_known_finds_nothing():
    """± 2 u = ± 40 % spans ln(1.4 / 0.6) / 0.05 = 17 bins."""
    assert words_of(number(1.0, 0.2)) == words_of(number(1.0, 0.5)) == ()


def test_pictures_that_differ_in_three_bits_share_a_band():
    """Three bits touch three of four bands at most (pigeonhole)."""
    draw = Random(2)
    for _ in range(500):
        bits = draw.getrandbits(63)
        other = bits ^ sum(1 << bit for bit in draw.sample(range(63), 3))
        assert set(words_of(picture(bits))) & set(words_of(picture(other)))


def test_pictures_that_differ_in_every_band_share_none():
    flipped = sum(1 << 16 * band for band in range(4))
    assert not set(words_of(picture(0x1234))) & set(words_of(picture(0x1234 ^ flipped)))
