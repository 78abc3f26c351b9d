import pytest

from teardowns.presenting.numbers import (
    chance,
    claim_in_words,
    decibans,
    number,
    plausibility,
    printed,
    share_in_words,
    span,
    way,
)


@pytest.mark.parametrize(("p", "text"), [
    (0.0, "<\u202f0.001"), (0.0009, "<\u202f0.001"), (0.004, "0.004"), (0.5, "0.50"),
    (0.91, "0.91"), (0.8996, "0.8996"), (0.4999, "0.4999"),
    (0.997, "0.997"), (0.99999, ">\u202f0.999"), (1.0, ">\u202f0.999"),
    (None, "not judged"),
])
def test_a_plausibility_is_never_printed_as_certainty(p, text):
    assert plausibility(p) == text


@pytest.mark.parametrize(("value", "text"), [
    (-86.24, "\u221286.2"), (1.4, "+1.4"), (-342.4, "\u2212342"), (0.01, "0.0"),
    (float("-inf"), "beyond all bounds"),
])
def test_decibans_carry_their_sign(value, text):
    assert decibans(value) == text


def test_a_weight_that_prints_as_zero_pushes_neither_way():
    assert [way(0.04), way(-0.04), way(0.06), way(-3.0)] == [
        "neither way", "neither way", "for", "against"]


@pytest.mark.parametrize(("ratio", "text"), [
    (14.6 / 45, "a third"), (0.5, "half"), (0.41, "41\u202f%"), (0.1, "a tenth"),
    (0.02, "2\u202f%"),
])
def test_a_share_is_a_common_fraction_or_a_percentage(ratio, text):
    assert share_in_words(ratio) == text


def test_numbers_keep_three_digits_and_plates_keep_theirs():
    assert number(128.3) == "128"
    assert printed(2.25) == "2.25"
    assert printed(19.98) == "19.98"


def test_an_interval_reads_from_low_to_high():
    assert span(13.09, 16.71) == "13.1 to 16.7"


def test_a_claim_of_a_voltage_alone_is_named_by_its_figures():
    assert claim_in_words({"power": None, "text": "20 V"}) == "20 V"
    assert claim_in_words({"power": 45.0, "text": "20 V ⎓ 2.25 A (45 W)"}) == "45\u202fW"


@pytest.mark.parametrize(("fraction", "text"), [
    ("1/20000", "1/20\u202f000"), ("3/200", "3/200"), ("1/1000000", "1/1\u202f000\u202f000"),
])
def test_a_chance_has_its_thousands_apart(fraction, text):
    assert chance(fraction) == text
