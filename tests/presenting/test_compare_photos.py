"""Photos of one stage, at one scale."""
from types import SimpleNamespace

import pytest

from teardowns.models import Photo, PhotoScale
from teardowns.presenting.compare_photos import compared_photos

from .compared import columns, compared


def photo(pk, stage="component_side", size=(1000, 500), **fields):
    return Photo(pk=pk, unit_id=7, key=f"p-{pk}", stage=stage, width=size[0], height=size[1],
                 **fields)


def scale(pk, photo_pk, millimetres=50.0, points=((100, 100), (600, 100))):
    """500 pixels are so many millimetres."""
    return PhotoScale(pk=pk, photo_id=photo_pk, points=[list(point) for point in points],
                      lengths=[millimetres / 1e3], length_uncertainty=1e-4, plane="the board")


def unit(photos, scales, pictures=None):
    found = compared(photo=photos, photoscale=scales)
    widths = (320, 640, 2000)
    found.pictures = {one.pk: [SimpleNamespace(width=width) for width in widths]
                      for one in photos} if pictures is None else pictures
    return found


def shown(*units, asked=""):
    return compared_photos(columns(*units), asked)


def test_pixels_become_millimetres_by_each_photos_own_scale():
    # 500 px are 50 mm: 0.1 mm a pixel, so 1000 × 500 px are 100 × 50 mm; the other is half of it.
    found = shown(unit([photo(1)], [scale(1, 1)]), unit([photo(2)], [scale(2, 2, 25.0)]))
    assert (found.window.width, found.window.height) == pytest.approx((100.0, 50.0))
    assert 'width="100"' in found.shown[0].picture
    assert 'width="50"' in found.shown[1].picture


def test_the_newest_scale_of_a_photo_counts():
    found = shown(unit([photo(1)], [scale(2, 1, 25.0), scale(1, 1, 50.0)]))
    assert found.window.width == pytest.approx(50.0)


def test_the_stage_that_most_units_share_is_shown():
    both = unit([photo(1), photo(2, "transformer")], [scale(1, 1), scale(2, 2)])
    one = unit([photo(3, "transformer")], [scale(3, 3)])
    assert shown(both, one).stage == "transformer"
    assert shown(both, one, asked="component_side").stage == "component_side"


def test_of_stages_equally_common_the_board_comes_first():
    found = unit([photo(1, "as_received"), photo(2)], [scale(1, 1), scale(2, 2)])
    assert shown(found, found).stage == "component_side"


@pytest.mark.parametrize("asked", ["nonsense", "thermal", "<b>"])
def test_a_stage_that_nobody_has_is_passed_over(asked):
    assert shown(unit([photo(1)], [scale(1, 1)]), asked=asked).stage == "component_side"


def test_a_unit_without_a_scaled_photo_says_so_and_what_it_has():
    found = shown(unit([photo(1)], [scale(1, 1)]), unit([photo(1)], [scale(1, 1)]),
                  unit([photo(2, "transformer")], [scale(2, 2)]), unit([photo(3)], []))
    assert found.shown[2].remarks == [
        "No photo “component side” with a scale. With a scale: transformer."]
    assert found.shown[3].remarks == ["No photo “component side” with a scale."]


def test_a_photo_out_of_sight_is_not_shown():
    assert shown(unit([photo(1)], [scale(1, 1)], pictures={})) is None


def test_a_scale_that_cannot_be_used_is_no_scale():
    assert shown(unit([photo(1)], [scale(1, 1, points=((5, 5), (5, 5)))])) is None


def test_a_drawing_is_said_to_be_one_and_the_plane_is_named():
    found = shown(unit([photo(1, drawn=True)], [scale(1, 1)]))
    assert found.shown[0].remarks == ["Scale: in the plane of the board.",
                                      "Drawing, not a photograph."]


def test_the_first_picture_is_small_and_the_large_one_is_named():
    picture = shown(unit([photo(1)], [scale(1, 1)])).shown[0].picture
    assert 'href="/units/7/photos/p-1/640' in picture and "/2000" in picture
