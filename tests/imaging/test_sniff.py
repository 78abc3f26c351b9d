import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.sniff import media_type_of
from tests.hostile.building import saved


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_the_four_kinds_are_told_by_their_first_bytes(kind):
    assert media_type_of(saved(kind)[:64]) == f"image/{kind.lower()}"


@pytest.mark.parametrize("head, code, word", [
    (b"", "empty_file", "empty"), (b"GIF89a", "unsupported_type", "GIF"),
    (b"%PDF-1.7", "unsupported_type", "PDF"), (b"\n <svg>", "unsupported_type", "PNG"),
    (b"time,volts", "unknown_type", "JPEG"),
    (b"\0\0\0\x14ftypmp42\0\0\0\0mp42", "unsupported_type", "film"),
])
def test_all_else_is_refused_with_its_name_or_the_remedy(head, code, word):
    with pytest.raises(Refused) as refused:
        media_type_of(head)
    assert refused.value.code == code
    assert word in refused.value.message


def test_a_container_that_names_avif_among_its_brands_is_avif():
    assert media_type_of(b"\0\0\0\x1cftypmif1\0\0\0\0mif1avifmiaf") == "image/avif"
