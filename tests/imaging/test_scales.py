"""Scales: pixels to metres, and what is no scale is said in the user's words."""
import numpy as np
import pytest

from teardowns.imaging.scales import ScaleError, four_corners, signed_area, two_points

MM = 1e-3
CARD = [(1000, 800), (2712, 800), (2712, 1879.6), (1000, 1879.6)]        # 20 px a mm
WIDTH, HEIGHT = 85.6 * MM, 53.98 * MM


def test_two_points_give_millimetres_a_pixel():
    # 30 mm over 1000 px along (600, 800): 0.03 mm a pixel.
    scale = two_points([(100, 200), (700, 1000)], 30 * MM, 0.1 * MM)
    assert scale.metres_a_pixel == pytest.approx(0.03 * MM)
    assert scale.to_metres([(0, 0), (300, 400)]) == pytest.approx(np.array([(0, 0), (9, 12)]) * MM)


def test_four_corners_give_millimetres_on_the_plane():
    scale = four_corners(CARD, WIDTH, HEIGHT, 0.06 * MM)
    assert scale.to_metres([(1000, 800), (1200, 1000)]) == pytest.approx(
        np.array([(0, 0), (10, 10)]) * MM)
    assert scale.metres_a_pixel == pytest.approx(0.05 * MM)


def test_corners_taken_anticlockwise_give_no_mirrored_plane():
    scale = four_corners([CARD[1], CARD[0], CARD[3], CARD[2]], WIDTH, HEIGHT, 0.0)
    assert signed_area(scale.points) > 0
    right, down = scale.to_metres([(1200, 800), (1000, 1000)]) - scale.to_metres([(1000, 800)])
    assert right == pytest.approx([10 * MM, 0]) and down == pytest.approx([0, 10 * MM])


def test_an_uncertainty_that_nobody_stated_is_assumed_and_said_so():
    # 1 % of 85.6 mm; of 2.54 mm at least the 0.05 mm of a caliper.
    scale = four_corners(CARD, WIDTH, HEIGHT)
    assert scale.length_u == pytest.approx(0.856 * MM) and not scale.length_u_stated
    assert two_points([(0, 0), (90, 0)], 2.54 * MM).length_u == pytest.approx(0.05 * MM)
    assert two_points([(0, 0), (90, 0)], 2.54 * MM, 0.0).length_u_stated


@pytest.mark.parametrize("points, length, u, told", [
    ([(5, 5), (5, 5)], 1.0, 0.1, "the same, or nearly"),
    ([(5, 5), (9, 9)], 1.0, 0.1, "the same, or nearly"),
    ([(5, 5)], 1.0, 0.1, "needs two points"),
    ([(5, 5), (500, float("nan"))], 1.0, 0.1, "needs two points"),
    ([(5, 5), (500, 5)], 0.0, 0.1, "length of the scale must be more than 0"),
    ([(5, 5), (500, 5)], float("inf"), 0.1, "must be more than 0"),
    ([(5, 5), (500, 5)], 1.0, -0.1, "uncertainty of the scale's length must be 0"),
    ([(5, 5), (500, 5)], 1.0, 0.3, "more than a quarter"),
])
def test_two_points_that_are_no_scale(points, length, u, told):
    with pytest.raises(ScaleError, match=told):
        two_points(points, length, u)


@pytest.mark.parametrize("corners, told", [
    ([CARD[0], CARD[1], CARD[1], CARD[3]], "are the same, or nearly"),
    ([CARD[0], CARD[2], CARD[2], CARD[0]], "are the same, or nearly"),
    ([(0, 0), (9, 0), (9, 9), (0, 9)], "this small"),
    ([CARD[0], CARD[2], CARD[1], CARD[3]], "are crossed"),
    ([CARD[0], CARD[1], (1300, 1000), CARD[3]], "inside the triangle"),
    ([CARD[0], CARD[1], (1900, 1350), CARD[3]], "nearly on one line"),
    ([(0, 0), (1000, 10), (2000, 0), (1000, 900)], "nearly on one line"),
    (CARD[:3], "needs four corners"),
])
def test_corners_that_are_no_rectangle(corners, told):
    with pytest.raises(ScaleError, match=told):
        four_corners(corners, WIDTH, HEIGHT, 0.0)


def test_a_width_in_the_wrong_unit_is_noticed():
    with pytest.raises(ScaleError, match="far longer or shorter"):
        four_corners(CARD, WIDTH, 5.398 * MM, 0.0)
    with pytest.raises(ScaleError, match="height of the scale must be more than 0"):
        four_corners(CARD, WIDTH, 0.0, 0.0)


def test_sides_the_wrong_way_round_are_noticed():
    assert four_corners(CARD, HEIGHT, WIDTH, 0.0).sides_look_swapped
    assert not four_corners(CARD, WIDTH, HEIGHT, 0.0).sides_look_swapped
    # Seen at 40° along its width the card is 1.586 · cos 40° = 1.21 times as wide as high.
    aslant = [(1000 + (x - 1000) * np.cos(np.radians(40)), y) for x, y in CARD]
    assert not four_corners(aslant, WIDTH, HEIGHT, 0.0).sides_look_swapped
    assert not two_points([(0, 0), (90, 0)], 2.54 * MM, 0.0).sides_look_swapped


def test_a_point_beyond_the_horizon_is_refused():
    # The sides come 500 px closer to x = 2000 over 500 px: 1000 px further up, at y = 0, they meet.
    scale = four_corners([(1500, 500), (2500, 500), (3000, 1000), (1000, 1000)], 1.0, 1.0, 0.0)
    assert np.isfinite(scale.to_metres([(2000, 20)])).all()
    with pytest.raises(ScaleError, match="beyond the horizon"):
        scale.to_metres([(2000, -20)])
