"""Three digits in µH: common practice, no source."""

import pytest

from teardowns.reading.markings.inductor import decode_inductor


@pytest.mark.parametrize(
    ("text", "henries"),
    [("101", 100e-6), ("4R7", 4.7e-6), ("R47", 0.47e-6), ("4N7", 4.7e-9), ("470µH", 470e-6),
     ("1mH 2A", 1e-3), ("brown black red silver", 1e-3)],
)  # fmt: skip
def test_a_marking_is_decoded(text, henries):
    assert decode_inductor(text).value == henries


def test_a_tolerance_letter_follows():
    assert decode_inductor("221K").tolerance == (-0.1, 0.1)


def test_a_code_ending_in_zero_may_be_plain_microhenries():
    decoding = decode_inductor("100")
    assert decoding.value == 10e-6
    assert decoding.others[0].value == 100e-6
