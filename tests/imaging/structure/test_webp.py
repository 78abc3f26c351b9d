import io

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import webp
from teardowns.imaging.structure.found import Source
from tests.hostile.building import SIZE, control, piece, saved, webp_with


def found(data):
    return webp.walk(Source(io.BytesIO(data), len(data)))


@pytest.mark.parametrize("options", [{}, {"lossless": True}])
def test_the_size_is_that_of_the_frame(options):
    seen = found(saved("WEBP", control((333, 77)), **options))
    assert (seen.width, seen.height) == (333, 77)


def test_the_new_header_promises_only_what_is_kept():
    data = webp_with(piece(b"EXIF", b"private"), flags=0x2C)
    kept = b"".join(p if isinstance(p, bytes) else data[p[0]:sum(p)] for p in found(data).pieces)
    assert int.from_bytes(kept[4:8], "little") == len(kept) - 8
    assert kept[12:16] == b"VP8X"
    assert kept[20] == 0
    assert b"private" not in kept


def test_a_frame_of_another_size_than_the_canvas_is_damage():
    data = webp_with()
    with pytest.raises(Refused, match="different sizes"):
        found(data.replace((SIZE[0] - 1).to_bytes(3, "little"), b"\x2f\0\0", 1))
