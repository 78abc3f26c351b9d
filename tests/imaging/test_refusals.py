import pytest

from teardowns.imaging import refusals
from teardowns.imaging.limits import MAX_SIDE
from teardowns.imaging.refusals import Refused, check_pixels, in_decoding


@pytest.mark.parametrize("size", [(1, 1), (7874, 7874), (MAX_SIDE, 3100), (1, MAX_SIDE)])
def test_sides_up_to_the_limits_pass(size):
    # 7874² = 61 999 876; 20 000 · 3100 = 62 000 000.
    check_pixels(*size)


@pytest.mark.parametrize("size, code", [
    ((7875, 7875), "too_many_pixels"), ((MAX_SIDE + 1, 1), "too_many_pixels"),
    ((MAX_SIDE, 3101), "too_many_pixels"), ((0, 5), "corrupt_image"), ((5, -1), "corrupt_image"),
])
def test_sides_beyond_them_are_refused(size, code):
    with pytest.raises(Refused) as refused:
        check_pixels(*size)
    assert refused.value.code == code


def test_the_message_names_what_was_found_and_what_is_allowed():
    with pytest.raises(Refused, match="50000 × 40000 pixels; at most 62 million"):
        check_pixels(50_000, 40_000)
    assert "41.0 MB; at most 40 MB" in refusals.too_large(41_000_000).message


def test_an_unknown_word_of_the_child_is_a_failure_to_decode():
    assert in_decoding("surprise").code == "decode_failed"
    assert in_decoding("decode_timeout").code == "decode_timeout"


@pytest.mark.parametrize("code", sorted(refusals.IN_DECODING))
def test_every_refusal_while_decoding_ends_with_a_remedy(code):
    assert in_decoding(code).message.endswith("upload that.")
