"""The view from above: true to scale, no larger than asked, and no further than the scale bears."""
import numpy as np
import pytest
from PIL import Image, ImageDraw

from teardowns.imaging.homography import apply
from teardowns.imaging.scales import four_corners, two_points
from teardowns.imaging.view_from_above import drawn, view_from_above

from .camera import SIZE, seen

MM = 1e-3
CARD = np.array([(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]) * MM


def card(**camera):
    return four_corners(seen(CARD, look_at=(0.043, 0.027), **camera), 85.6 * MM, 53.98 * MM, 0.0)


def test_straight_on_the_view_is_the_picture():
    # 3000 px of focal length at 0.15 m: 20 px a mm, 4000 x 3000 px are 200 x 150 mm: 2560 / 200 px
    # a mm across.
    view = view_from_above(card(), SIZE)
    assert view.size == (2560, 1920)
    assert view.metres_a_pixel == pytest.approx(200 * MM / 2560)
    assert apply(view.matrix, [(0, 0), (4000, 3000)]) == pytest.approx(
        np.array([(0, 0), (2560, 1920)]), abs=1e-6)


def test_a_right_angle_and_a_length_are_true_in_the_view_of_a_tilted_picture():
    camera = {"tilt": 0.6, "azimuth": 1.0, "roll": 0.3}
    view = view_from_above(card(**camera), SIZE)
    spots = seen(np.array([(10, 10), (20, 10), (10, 20)]) * MM, look_at=(0.043, 0.027), **camera)
    a, b, c = apply(view.matrix, spots) * view.metres_a_pixel
    assert (np.hypot(*(b - a)), np.hypot(*(c - a))) == pytest.approx((10 * MM, 10 * MM))
    assert (b - a) @ (c - a) == pytest.approx(0, abs=1e-12)


def test_it_is_not_larger_than_asked_nor_finer_than_the_picture():
    small = view_from_above(card(tilt=0.5), SIZE, longest=640)
    assert max(small.size) == 640
    # A scale of 0.03 mm a pixel: 400 x 300 px of picture stay 400 x 300.
    ruler = two_points([(100, 100), (200, 100)], 3 * MM, 0.0)
    assert view_from_above(ruler, (400, 300)).size == (400, 300)


def test_where_the_horizon_is_in_the_picture_it_looks_as_far_as_the_scale_bears():
    # The sides come together 600 px a 1000 px each: 400 px are left, they meet at y = 333.
    # Twice the card's longer side around the card: 85.6 · 5 by 53.98 + 85.6 · 4 mm.
    scale = four_corners([(1600, 1000), (2400, 1000), (3000, 2000), (1000, 2000)], 85.6 * MM,
                         53.98 * MM, 0.0)
    view = view_from_above(scale, SIZE)
    width, height = np.array(view.size) * view.metres_a_pixel / MM
    assert (width, height) == pytest.approx((428.0, 396.38), abs=0.4)


def test_a_smaller_copy_gives_the_same_view():
    view = view_from_above(card(tilt=0.5, azimuth=0.5), SIZE, longest=500)
    views = []
    for width, height in (SIZE, (1000, 750)):
        picture = Image.new("L", (width, height))
        corners = seen(CARD, look_at=(0.043, 0.027), tilt=0.5, azimuth=0.5) * width / 4000
        ImageDraw.Draw(picture).polygon([tuple(point) for point in corners], fill=255)
        views.append(np.asarray(drawn(picture, view), float))
    assert views[0].shape == views[1].shape == view.size[::-1]
    assert np.abs(views[0] - views[1]).mean() < 1.5             # of 255: the edges alone differ
    assert 0.05 < views[0].mean() / 255 < 0.9


def test_the_card_comes_out_as_a_rectangle_of_its_size():
    view = view_from_above(card(tilt=0.5, azimuth=0.5), SIZE, longest=500)
    picture = Image.new("L", SIZE)
    corners = seen(CARD, look_at=(0.043, 0.027), tilt=0.5, azimuth=0.5)
    ImageDraw.Draw(picture).polygon([tuple(point) for point in corners], fill=255)
    lit = np.asarray(drawn(picture, view)) > 127
    rows, columns = np.flatnonzero(lit.any(axis=1)), np.flatnonzero(lit.any(axis=0))
    assert len(columns) * view.metres_a_pixel == pytest.approx(85.6 * MM, abs=1.5 * MM)
    assert len(rows) * view.metres_a_pixel == pytest.approx(53.98 * MM, abs=1.5 * MM)
    assert lit[rows[0]:rows[-1], columns[0]:columns[-1]].mean() > 0.99
