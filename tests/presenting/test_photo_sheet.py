"""What a page says of a photo, worked out from rows that need no file."""
import numpy as np
import pytest

from teardowns.imaging.homography import apply
from teardowns.imaging.web_annotation import written
from teardowns.models import Annotation, Photo, PhotoReading, PhotoScale
from teardowns.presenting.photo_sheet import (
    DRAWING,
    drawn,
    gallery,
    gallery_neighbours,
    photo_sheet,
    picture,
    title,
)

pytestmark = pytest.mark.django_db
NAMES = {"component/c1": "bulk capacitor C1"}
CORNERS = [[100, 100], [300, 100], [300, 200], [100, 200]]


@pytest.fixture
def plate(alice, unit):
    """A photo of 4000 by 3000 pixels in two widths, without files."""
    photo = Photo.objects.create(unit=unit, key="plate-1", sha256="0" * 64, stage="plate",
                                 author=alice, width=4000, height=3000)
    for width in (320, 1280):
        photo.derivatives.create(width=width, height=width * 3 // 4, media_type="image/webp",
                                 path=f"plate/{width}")
    return photo


def scale(plate, points, lengths, u=0.00002):
    return PhotoScale.objects.create(photo=plate, points=points, lengths=lengths,
                                     length_uncertainty=u, author=plate.author)


def mark(plate, shows="", label="C1", key="m1"):
    return Annotation(photo=plate, key=key, author=plate.author, shows=shows, body=written(
        "point", ((10.0, 20.0),), label, shows, plate.get_absolute_url()))


def reading(plate, row, value, budget, shows="component/c1", **more):
    u = float(np.hypot.reduce([share for _, share in budget])) if budget else 1e-4
    return PhotoReading.objects.create(
        photo=plate, scale=row, shows=shows, shape="line", points=[], value=value, uncertainty=u,
        budget=budget, author=plate.author, **more)


def sheet(plate, marks=(), scales=(), readings=(), **more):
    return photo_sheet(plate, marks, scales, readings, NAMES, **more)


# The picture

def test_a_picture_has_every_width_and_its_own_size(plate):
    found = picture(plate, list(plate.derivatives.order_by("width")))
    base = f"/units/{plate.unit_id}/photos/plate-1"
    assert found["srcset"] == f"{base}/320.webp 320w, {base}/1280.webp 1280w"
    assert (found["width"], found["height"], found["full"]) == (4000, 3000, f"{base}/1280.webp")


def test_a_browser_without_choice_gets_the_first_width_from_1280_up(plate):
    plate.derivatives.create(width=2560, height=1920, media_type="image/webp", path="plate/2560")
    found = picture(plate, list(plate.derivatives.order_by("width")))
    assert found["src"].endswith("/1280.webp") and found["full"].endswith("/2560.webp")


@pytest.mark.parametrize("said, alt", [
    ({"alt": "a plate", "caption": "The plate."}, "a plate"), ({"caption": "The plate."},
                                                               "The plate."),
    ({}, "Photo, rating plate")])
def test_a_picture_always_has_words(plate, said, alt):
    for name, value in said.items():
        setattr(plate, name, value)
    assert picture(plate, [])["alt"] == alt


def test_a_photo_without_pictures_has_no_address(plate):
    assert picture(plate, [])["src"] == picture(plate, [])["full"] == ""


@pytest.mark.parametrize("key, name", [("plate-1", "Rating plate"), ("plate-2", "Rating plate 2"),
                                       ("plate", "Rating plate")])
def test_a_photo_is_called_by_its_stage_and_its_number(plate, key, name):
    plate.key = key
    assert title(plate) == name


# The gallery

def test_the_gallery_goes_stage_by_stage_and_asks_once(plate, alice, django_assert_num_queries):
    for key, stage in (("other-1", "other"), ("as-received-1", "as_received")):
        row = Photo.objects.create(unit=plate.unit, key=key, sha256=key, stage=stage, author=alice,
                                   width=4, height=3, drawn=True)
        row.derivatives.create(width=4, height=3, media_type="image/webp", path=key)
    with django_assert_num_queries(1):
        found = gallery(plate.unit)
    assert [each["stage"] for each in found] == ["As received", "Rating plate", "Other"]
    assert [each["remark"] for each in found] == [DRAWING, "", DRAWING]
    assert found[1]["edit"] == f"/bench/{plate.unit_id}/photos/plate-1/"


def test_the_gallery_shows_the_first_sentence_of_a_caption(plate):
    Photo.objects.update(caption="It says 45 W. The weight says less.")
    assert gallery(plate.unit)[0]["caption"] == "It says 45 W"


def test_a_photo_that_was_taken_down_is_not_in_the_gallery(plate):
    Photo.objects.update(taken_down_at=plate.created_at)
    assert gallery(plate.unit) == []


def test_neighbours_end_at_the_ends():
    first, middle, last = photos = [Photo(pk=n, key=f"p{n}") for n in range(3)]
    assert gallery_neighbours(photos, first) == {"place": 1, "of": 3, "before": None,
                                                 "after": middle}
    assert gallery_neighbours(photos, last) == {"place": 3, "of": 3, "before": middle,
                                                "after": None}


# Marks

def test_a_mark_without_a_label_is_drawn_by_the_key_of_what_it_shows(plate):
    assert drawn(mark(plate, "component/c1", label="")).label == "c1"


def test_a_mark_is_listed_with_what_it_shows_and_where_that_stands(plate):
    (listed,) = sheet(plate, [mark(plate, "component/c1", label="")])["marks"]
    assert (listed["label"], listed["shows"]) == ("bulk capacitor C1", "bulk capacitor C1")
    assert listed["evidence"] == f"/units/{plate.unit_id}/#component-c1"


def test_a_mark_of_a_row_that_is_gone_shows_nothing(plate):
    (listed,) = sheet(plate, [mark(plate, "component/gone", label="")])["marks"]
    assert (listed["label"], listed["shows"], listed["evidence"]) == ("point", "", "")


def test_what_is_hidden_is_neither_drawn_nor_listed_nor_read(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    found = sheet(plate, [mark(plate, "component/c1"), mark(plate, label="fuse", key="m2")], [row],
                  [reading(plate, row, 0.006, [])], hidden="component/c1")
    assert [each["label"] for each in found["marks"]] == ["fuse"]
    assert "C1" not in found["drawing"] and found["readings"] == []


# Scales

def test_two_points_tell_the_script_how_long_a_pixel_is(plate):
    found = sheet(plate, scales=[scale(plate, [[100, 100], [300, 100]], [0.020])])
    assert float(found["mm_per_px"]) == pytest.approx(0.1)        # 20 mm over 200 px
    assert "homography" not in found


def test_four_corners_give_the_script_a_map_to_millimetres(plate):
    found = sheet(plate, scales=[scale(plate, CORNERS, [0.020, 0.010])])
    matrix = np.array(found["homography"].split(), float).reshape(3, 3)
    # The corners of a rectangle of 20 mm by 10 mm.
    assert apply(matrix, CORNERS) == pytest.approx(
        np.array([[0, 0], [20, 0], [20, 10], [0, 10]]), abs=1e-6)


def test_the_newest_scale_is_the_one_that_counts_while_drawing(plate):
    old, new = (scale(plate, [[100, 100], [300, 100]], [length]) for length in (0.02, 0.04))
    assert float(sheet(plate, scales=[old, new])["mm_per_px"]) == pytest.approx(0.2)


def test_a_scale_whose_uncertainty_nobody_said_is_said_to_have_none_stated(plate):
    row = scale(plate, CORNERS, [0.02, 0.01], u=None)
    assert sheet(plate, scales=[row])["scales"][0]["u"] == "not stated"
