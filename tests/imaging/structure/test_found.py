import io
import re

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure.found import BLOCK, Source, in_order, joined


def source(data):
    return Source(io.BytesIO(data), len(data))


@pytest.mark.parametrize("offset, length", [(0, 6), (5, 1), (3, -1)])
def test_reading_behind_the_end_means_that_the_file_was_cut_off(offset, length):
    with pytest.raises(Refused, match="cut off"):
        source(b"abcde").read(offset, length)


def test_a_file_shorter_than_it_was_said_to_be_was_cut_off():
    with pytest.raises(Refused, match="cut off"):
        Source(io.BytesIO(b"abc"), 10).read(0, 5)


@pytest.mark.parametrize("at", [0, 7, BLOCK - 2, BLOCK - 1, BLOCK, 2 * BLOCK - 1])
def test_a_match_is_found_across_the_border_of_two_blocks(at):
    data = bytearray(2 * BLOCK + 10)
    data[at:at + 2] = b"ab"
    assert source(bytes(data)).find(re.compile(b"ab"), 0, 1) == at


def test_nothing_found_is_minus_one():
    assert source(b"xxxx").find(re.compile(b"ab"), 0, 1) == -1


def test_neighbouring_pieces_become_one():
    assert joined([(0, 2), (2, 3), b"new", (5, 1), (9, 1)]) == ((0, 5), b"new", (5, 1), (9, 1))


def test_words_stand_once_in_the_order_of_their_first():
    assert in_order(["b", "a", "b"]) == ("b", "a")
