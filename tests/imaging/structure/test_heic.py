import io

import pytest

from teardowns.imaging.refusals import Refused
from teardowns.imaging.structure import heic as structure
from teardowns.imaging.structure.found import ZEROS, Source
from tests.hostile.building import CANARY, box, control, exif
from tests.imaging.heic_files import heic, readable

pytestmark = readable


def found(data):
    return structure.walk(Source(io.BytesIO(data), len(data)))


def test_the_size_is_the_cropped_one():
    """Coded in blocks, 97 × 63 pixels fill more; the file says what of it is the picture."""
    seen = found(heic(control((97, 63))))
    assert (seen.width, seen.height) == (97, 63)


@pytest.mark.parametrize("number, size", [(1, (96, 64)), (3, (96, 64)), (6, (64, 96)),
                                          (8, (64, 96))])
def test_the_decoder_turns_it_so_it_counts_as_upright(number, size):
    seen = found(heic(exif=b"Exif\0\0" + exif((0x112, number))))
    assert (seen.width, seen.height, seen.orientation) == (*size, 1)


def test_metadata_is_named_and_goes_to_no_decoder():
    data = heic(exif=b"Exif\0\0" + exif((0x10F, CANARY)))
    seen = found(data)
    assert "camera make and model" in seen.removed
    given = b"".join(bytes(n) if at == ZEROS else data[at:at + n] for at, n in seen.pieces)
    assert len(given) == len(data) and CANARY in data and CANARY not in given


@pytest.mark.parametrize("brand", sorted(structure.SEQUENCES))
def test_a_sequence_is_a_moving_picture(brand):
    assert refused(heic().replace(b"ftypheic", b"ftyp" + brand, 1)) == "animated"


def test_a_film_track_makes_it_a_moving_picture():
    assert refused(heic() + box(b"moov")) == "animated"


@pytest.mark.parametrize("old, new", [
    (b"hvc1", b"av01"), (b"ispe", b"free"), (b"pitm", b"free"), (b"iloc", b"free")])
def test_what_holds_no_hevc_picture_is_damage(old, new):
    assert refused(heic().replace(old, new, 1)) == "corrupt_image"


def test_a_crop_by_a_share_of_nothing_is_damage():
    # clap: width 97 / 1, then its height (ISO/IEC 14496-12, 12.1.4).
    one = (97).to_bytes(4, "big") + (1).to_bytes(4, "big")
    data = heic(control((97, 63)))
    assert one in data
    assert refused(data.replace(one, one[:4] + bytes(4), 1)) == "corrupt_image"


def refused(data):
    with pytest.raises(Refused) as refusal:
        found(data)
    return refusal.value.code
