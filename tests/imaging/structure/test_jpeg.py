import io

import pytest

from teardowns.imaging.limits import MAX_METADATA
from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import jpeg
from teardowns.imaging.structure.found import Source
from tests.hostile.building import jpeg_with, saved, segment


def found(data):
    return jpeg.walk(Source(io.BytesIO(data), len(data)))


def test_the_size_is_that_of_the_frame_header():
    assert (found(saved("JPEG")).width, found(saved("JPEG")).height) == (96, 64)


def test_the_first_exif_block_decides_which_way_is_up():
    blocks = [b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0%c\0\0" % n for n in (6, 3)]
    assert found(jpeg_with(*(segment(0xE1, block) for block in blocks))).orientation == 6


def test_a_profile_in_parts_is_put_in_the_order_of_its_numbers():
    data = jpeg_with(segment(0xE2, b"ICC_PROFILE\0\2\2second"),
                     segment(0xE2, b"ICC_PROFILE\0\1\2first"))
    assert b"".join(data[at:at + n] for at, n in found(data).profile) == b"firstsecond"


def test_metadata_is_counted_in_bytes():
    data = jpeg_with(segment(0xE4, b"x" * 65_000) * (MAX_METADATA // 65_000 + 1))
    with pytest.raises(Refused) as refused:
        found(data)
    assert refused.value.code == "too_much_metadata"


def test_a_progressive_picture_without_its_last_passes_is_damaged():
    data = saved("JPEG", progressive=True)
    assert found(data).width == 96
    with pytest.raises(Refused, match="last passes"):
        found(data[:data.rindex(b"\xff\xda")] + b"\xff\xd9")


def test_fill_bytes_before_a_marker_are_allowed():
    """T.81, B.1.1.2: any marker may be preceded by any number of fill bytes FF."""
    data = saved("JPEG")
    assert found(data[:2] + b"\xff\xff\xff" + data[2:]).width == 96
