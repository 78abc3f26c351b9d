import io

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import avif
from teardowns.imaging.structure.found import Source
from tests.hostile.building import box, control, exif, saved


def found(data):
    return avif.walk(Source(io.BytesIO(data), len(data)))


def test_the_size_is_that_of_the_primary_item():
    seen = found(saved("AVIF", control((130, 70))))
    assert (seen.width, seen.height) == (130, 70)


@pytest.mark.parametrize("number", range(1, 9))
def test_turn_and_mirror_are_the_orientation_that_the_encoder_was_given(number):
    assert found(saved("AVIF", exif=exif((0x112, number)))).orientation == number


def test_without_the_property_the_picture_is_not_turned():
    """AVIF 1.1, 4: properties say how a picture is turned, EXIF does not."""
    data = saved("AVIF", exif=exif((0x10F, b"maker"), (0x112, 6)))
    assert found(data.replace(b"irot", b"free")).orientation == 1


def test_a_profile_is_named():
    assert found(saved("AVIF", icc_profile=b"p" * 128)).removed == ("colour profile",)


@pytest.mark.parametrize("size", [0, 3, 7])
def test_a_box_shorter_than_its_own_head_is_damage(size):
    data = saved("AVIF")
    if size:
        with pytest.raises(Refused):
            found(data + size.to_bytes(4, "big") + b"free")
    else:                            # a size of 0 means "to the end of the file"
        assert found(data + b"\0\0\0\0free").width == 96


def test_a_film_track_makes_it_a_moving_picture():
    with pytest.raises(Refused) as refused:
        found(saved("AVIF") + box(b"moov"))
    assert refused.value.code == "animated"
