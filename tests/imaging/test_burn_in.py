import pytest
from PIL import Image

from teardowns.imaging.burn_in import COVER, painted
from teardowns.imaging.derive import derive
from tests.hostile.building import EXIF_INTO, control, exif, saved


def test_boxes_reach_outwards_to_whole_pixels():
    image = painted(Image.new("RGB", (10, 10)), [(2.6, 3.0, 1.0, 2.5)])
    covered = {(x, y) for x in range(10) for y in range(10) if image.getpixel((x, y)) == COVER}
    # x from 2.6 to 3.6 touches columns 2 and 3; y from 3 to 5.5 touches rows 3, 4 and 5.
    assert covered == {(x, y) for x in (2, 3) for y in (3, 4, 5)}


@pytest.mark.parametrize("box", [(-5, -5, 3, 3), (20, 0, 5, 5), (3, 3, 0, 4)])
def test_a_box_outside_or_without_area_covers_nothing(box):
    assert painted(Image.new("RGB", (10, 10)), [box]).getcolors() == [(100, (0, 0, 0))]


def test_every_derivative_is_covered_where_the_picture_is_shown(tmp_path):
    """The box lies over the left upper quarter as shown, which is stored at the left below."""
    path = tmp_path / "original"
    path.write_bytes(EXIF_INTO["jpeg"](exif((0x112, 6))))
    derived = derive(path, tmp_path, covered=[(0, 0, 32, 48)])
    with Image.open(derived.files[-1].path) as picture:
        near(picture.getpixel((16, 24)), COVER)
        near(picture.getpixel((48, 24)), (200, 30, 30))


def test_nothing_of_what_is_covered_can_be_told_from_any_size(tmp_path):
    """Two pictures that differ under the box only give the same bytes."""
    bytes_of = []
    for secret in ((0, 0, 0), (255, 255, 255)):
        picture = control((700, 500))
        picture.paste(secret, (103, 57, 401, 333))
        (tmp_path / "original").write_bytes(saved("PNG", picture))
        derived = derive(tmp_path / "original", tmp_path, covered=[(103, 57, 298, 276)])
        bytes_of.append([file.path.read_bytes() for file in derived.files])
    assert len(bytes_of[0]) == 3
    assert bytes_of[0] == bytes_of[1]


def near(seen, expected):
    assert max(abs(a - b) for a, b in zip(seen, expected, strict=True)) <= 12
