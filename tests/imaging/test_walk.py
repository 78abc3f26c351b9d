import io

import pytest

from teardowns.imaging.limits import MAX_BYTES
from teardowns.imaging.refusals import Refused
from teardowns.imaging.walk import walk
from tests.hostile.building import CANARY, EXIF_INTO, exif, jpeg_with, png_with, saved, segment


def walked(data, size=None):
    return walk(io.BytesIO(data), len(data) if size is None else size)


def kept(data):
    """The bytes that a decoder would be given."""
    return b"".join(piece if isinstance(piece, bytes) else data[piece[0]:sum(piece)]
                    for piece in walked(data).pieces)


@pytest.mark.parametrize("kind", ["jpeg", "png", "webp", "avif"])
def test_it_tells_kind_size_as_shown_and_orientation(kind):
    seen = walked(EXIF_INTO[kind](exif((0x112, 8))))
    assert (seen.media_type, seen.width, seen.height) == (f"image/{kind}", 64, 96)
    assert seen.orientation == 8
    assert seen.stored_size == (96, 64)


@pytest.mark.parametrize("size, code", [(0, "empty_file"), (MAX_BYTES + 1, "too_large")])
def test_the_size_is_judged_before_anything_is_read(size, code):
    with pytest.raises(Refused) as refused:
        walk(None, size)
    assert refused.value.code == code


def test_each_thing_that_will_be_removed_is_named_once():
    data = jpeg_with(segment(0xFE, b"one"), segment(0xFE, b"two"), after=b"clip")
    assert walked(data).removed == ("comments", "data after the end of the picture")


@pytest.mark.parametrize("kind", ["jpeg", "png", "webp"])
def test_metadata_never_reaches_a_decoder(kind):
    data = EXIF_INTO[kind](exif((0x10F, CANARY), gps=[(1, CANARY)]))
    assert CANARY in data
    assert CANARY not in kept(data)


@pytest.mark.parametrize("data", [jpeg_with(), png_with(), saved("WEBP"), saved("AVIF")])
def test_what_is_kept_walks_like_the_picture_itself(data):
    again, seen = walked(kept(data)), walked(data)
    assert (again.width, again.height, again.removed) == (seen.width, seen.height, ())


@pytest.mark.parametrize("length", [2**20 - 1, 2**20, 2**20 + 1, 3 * 2**20])
def test_the_end_is_found_wherever_the_blocks_of_reading_end(length):
    whole = jpeg_with()
    data = whole[:-2] + b"\x55" * (length - len(whole)) + whole[-2:]
    assert walked(data).removed == ()
    assert walked(data + b"x").removed == ("data after the end of the picture",)
