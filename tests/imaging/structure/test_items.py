"""What AVIF and HEIC share: one still picture among boxes and items."""
import io

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import items
from teardowns.imaging.structure.found import Source
from tests.hostile.building import CANARY, box, control, exif, saved


def walked(data):
    return items.walk(Source(io.BytesIO(data), len(data)))


def held(data, spans):
    return b"".join(data[at:at + length] for at, length in spans)


def test_it_names_the_coding_and_the_size_of_the_picture():
    still = walked(saved("AVIF", control((130, 70))))
    assert (still.kind, still.width, still.height) == (b"av01", 130, 70)
    assert still.words == () and still.others == ()


def test_where_metadata_lies_is_told_apart_from_pixels():
    data = saved("AVIF", exif=exif((0x10F, CANARY)))
    still = walked(data)
    assert CANARY in held(data, still.others) and "camera make and model" in still.words
    assert sum(length for _, length in still.others) < len(data) / 2


def test_boxes_beside_the_picture_hold_no_pixels():
    data = saved("AVIF") + box(b"uuid", CANARY)
    still = walked(data)
    assert held(data, still.others) == CANARY
    assert still.words == ("other data beside the picture",)


@pytest.mark.parametrize("damage", [
    lambda data: data[:-1], lambda data: data.replace(b"meta", b"free", 1),
    lambda data: data.replace(b"iloc", b"free", 1), lambda data: data.replace(b"ispe", b"free")])
def test_a_picture_without_a_whole_header_is_damage(damage):
    with pytest.raises(Refused) as refused:
        walked(damage(saved("AVIF")))
    assert refused.value.code == "corrupt_image"
