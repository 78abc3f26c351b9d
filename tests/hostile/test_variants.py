"""Spoilt files are the same each time, unlike each other, and either read or refused in words."""
from io import BytesIO

import pytest

from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from teardowns.imaging.walk import walk
from tests.hostile.building import (
    PNG_MAGIC,
    SIZE,
    chunk,
    header,
    pixels_of,
    png_of,
    png_with,
    saved,
)
from tests.hostile.corpus import PHOTOS, Sent, named, variants
from tests.hostile.names import NAMES
from tests.hostile.variants import spoilt_picture, with_right_sums

SOURCES = [Sent(PHOTOS, "sound", "a.png", png_with()),
           Sent(PHOTOS, "sound", "b.jpg", saved("JPEG")),
           Sent(PHOTOS, "sound", "c.webp", saved("WEBP"))]


def spoilt(count, seed=0):
    return list(variants(PHOTOS, SOURCES, spoilt_picture, count, seed))


def test_a_seed_makes_the_same_files_and_another_seed_others():
    assert spoilt(40) == spoilt(40)
    assert len({each.sha256 for each in spoilt(40) + spoilt(40, seed=1)}) > 70


def test_checksums_that_were_broken_agree_again():
    """Bytes 29 to 32 are the checksum of IHDR: 8 of the signature, 4 + 4 + 13 before it."""
    whole = png_with()
    assert with_right_sums(whole[:29] + b"\0\0\0\0" + whole[33:]) == whole
    assert with_right_sums(b"no picture") == b"no picture"


def test_each_is_walked_or_refused_in_words():
    for each in spoilt(400, seed=2):
        try:
            walk(BytesIO(each.data), len(each.data))
        except Refused as refused:
            assert refused.message.endswith("."), each.name


def test_pixels_that_are_spoilt_under_a_right_checksum_are_refused_and_leave_nothing(tmp_path):
    """What the walk lets pass, the decoder has to find: the stream of pixels is no stream."""
    whole = pixels_of()
    broken = whole[:8] + bytes(byte ^ 0x55 for byte in whole[8:40]) + whole[40:]
    path, out = tmp_path / "spoilt.png", tmp_path / "out"
    path.write_bytes(with_right_sums(png_of(header(*SIZE), broken, chunk(b"IEND"))))
    out.mkdir()
    with pytest.raises(Refused):
        derive(path, out)
    assert path.read_bytes().startswith(PNG_MAGIC) and not list(out.iterdir())


def test_every_name_comes_with_a_file_of_its_own():
    sound = Sent(PHOTOS, "sound", "a.png", png_with(), frozenset({"accepted"}))
    made = list(named([sound], []))
    assert len({each.sha256 for each in made}) == len(made) == 2 * len(NAMES)
