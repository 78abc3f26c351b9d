import io
import zlib

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import png
from teardowns.imaging.structure.found import Source
from tests.hostile.building import SIZE, chunk, header, pixels_of, png_of, png_with


def found(data):
    return png.walk(Source(io.BytesIO(data), len(data)))


def test_every_single_bit_turned_over_is_noticed():
    """CRC-32 finds all errors of one bit, and the signature is not covered by the walk."""
    whole = png_with()
    for at in range(8, len(whole)):
        data = bytearray(whole)
        data[at] ^= 1 << at % 8
        with pytest.raises(Refused):
            found(bytes(data))


def test_the_packed_profile_stands_behind_its_name():
    packed = zlib.compress(b"profile")
    data = png_with(chunk(b"iCCP", b"a name\0\0" + packed))
    (at, length), = found(data).profile
    assert data[at:at + length] == packed


def test_only_what_pixels_need_is_kept():
    data = png_with(chunk(b"tEXt", b"a\0b"), chunk(b"pHYs", b"\0" * 9))
    kept = b"".join(data[at:at + length] for at, length in found(data).pieces)
    assert kept == png_with()


def test_harmless_numbers_are_not_announced_as_private():
    assert found(png_with(chunk(b"pHYs", b"\0" * 9), chunk(b"gAMA", b"\0\0\0\1"))).removed == ()


def test_a_palette_may_stand_in_a_picture_of_full_colour():
    palette = chunk(b"PLTE", b"\0" * 6)
    assert found(png_of(header(*SIZE), palette, pixels_of(), chunk(b"IEND"))).width == SIZE[0]
