"""Pieces of whole lines: nothing lost, nothing torn, whatever the size of a piece."""
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.logs.blocks import next_block
from tests.logs.reading import refused

PIECES = st.lists(st.sampled_from(["1", "µ", ",", " ", "\n", "\r\n", "\r", "\n\n"]), max_size=30)


def blocks(data, encoding, most):
    found, offset, line = [], 0, 1
    while offset < len(data):
        block = next_block(io.BytesIO(data), offset, line, len(data), encoding, most)
        found.append(block)
        offset, line = block.end, block.line + block.lines
    return found


@settings(max_examples=150, deadline=None)
@given(PIECES, st.integers(1, 40), st.sampled_from(["utf-8", "utf-16-le", "utf-16-be"]))
def test_blocks_together_are_the_text_with_plain_line_ends(pieces, most, encoding):
    text = "".join(pieces)
    found = blocks(text.encode(encoding), encoding, most)
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    assert b"".join(block.text for block in found).decode() == plain
    assert all(block.text.endswith(b"\n") for block in found[:-1])
    assert [block.is_last for block in found] == [False] * (len(found) - 1) + [True] * bool(found)


def test_lines_are_counted_through_all_blocks():
    found = blocks(b"1\n\n2\r\n3\r4", "utf-8", 1)
    assert [(block.line, block.text) for block in found] == [
        (1, b"1\n\n"), (3, b"2\n"), (4, b"3\n4")]


def test_a_megabyte_of_empty_lines_inside_a_log_is_refused():
    with refused("empty_lines", 2):
        blocks(b"1\n2" + b"\n" * 3_000_000 + b"3\n", "utf-8", 1 << 20)
    assert len(blocks(b"1\n2" + b"\n" * 900_000, "utf-8", 1 << 20)) == 1


def test_an_unknown_encoding_is_refused():
    with refused("encoding"):
        blocks(b"1\n", "no-such-codec", 10)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16-le"])
def test_a_line_without_end_is_refused(encoding):
    with refused("line_too_long", 1):
        blocks(("7" * 70_000 + "\n").encode(encoding) * 2, encoding, 65_000)
