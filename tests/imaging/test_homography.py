"""A rectangle seen aslant goes back to a rectangle, with other derivations as witnesses."""
import numpy as np
import pytest
from PIL import Image

from teardowns.imaging.homography import apply, from_corners, rectified

from .camera import seen

RANDOM = np.random.default_rng(5)
CARD = np.array([(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]) * 1e-3


def by_elimination(corners, size):
    """Eight equations for eight unknowns: R. Szeliski, Computer vision, 2nd ed. 2022, 8.1.1."""
    (w, h), rows = size, []
    for (x, y), (to_x, to_y) in zip(corners, [(0, 0), (w, 0), (w, h), (0, h)], strict=True):
        rows += [[x, y, 1, 0, 0, 0, -x * to_x, -y * to_x, to_x],
                 [0, 0, 0, x, y, 1, -x * to_y, -y * to_y, to_y]]
    rows = np.array(rows, float)
    return np.append(np.linalg.solve(rows[:, :8], rows[:, 8]), 1.0).reshape(3, 3)


def random_corners(count):
    square = np.array([(900, 700), (3100, 700), (3100, 2300), (900, 2300)], float)
    return square + RANDOM.uniform(-400, 400, (count, 4, 2))


def test_a_trapezium_by_hand():
    # x' = 2x / (1 + y), y' = y / (1 + y) takes the unit square to these corners, its middle to
    # (1 / 1.5, 0.5 / 1.5).
    matrix = from_corners([(0, 0), (2, 0), (1, 0.5), (0, 0.5)], (1, 1))
    assert apply(matrix, [(2 / 3, 1 / 3)])[0] == pytest.approx([0.5, 0.5])


def test_it_agrees_with_eight_linear_equations():
    points = RANDOM.uniform((0, 0), (4000, 3000), (50, 2))
    for corners in random_corners(100):
        found = from_corners(corners, (85.6, 53.98))
        wanted = by_elimination(corners, (85.6, 53.98))
        assert found / found[2, 2] == pytest.approx(wanted, rel=1e-6, abs=1e-9)
        ahead = (points @ wanted[2, :2] + 1) * (corners[0] @ wanted[2, :2] + 1) > 0
        moved = np.column_stack([points, np.ones(50)]) @ wanted.T
        assert apply(found, points[ahead]) == pytest.approx((moved[:, :2] / moved[:, 2:])[ahead],
                                                            rel=1e-6, abs=1e-6)


def test_a_pinhole_camera_is_undone():
    board = RANDOM.uniform(-0.03, 0.1, (200, 2))
    view = {"tilt": 0.7, "azimuth": 2.0, "roll": 1.0, "look_at": (0.04, 0.03), "distance": 0.25}
    matrix = from_corners(seen(CARD, **view), (85.6e-3, 53.98e-3))
    assert apply(matrix, seen(board, **view)) == pytest.approx(board, abs=1e-12)


def test_many_at_once_are_each_alone():
    corners = random_corners(7)
    together = from_corners(corners, (2.0, 1.0))
    assert (together == np.stack([from_corners(each, (2.0, 1.0)) for each in corners])).all()
    points = RANDOM.uniform(1000, 2000, (7, 3, 2))
    assert apply(together, points)[4] == pytest.approx(apply(together[4], points[4]))


def test_what_lies_beyond_the_horizon_is_nowhere():
    # The trapezium's sides meet at y' = 1: as y → ∞, y' = y / (1 + y) → 1.
    matrix = from_corners([(0, 0), (2, 0), (1, 0.5), (0, 0.5)], (1, 1))
    found = apply(matrix, [(0, 0.99), (0, 1.0), (0, 1.01)])
    assert found[0] == pytest.approx([0, 99]) and np.isnan(found[1:]).all()


def test_three_corners_on_a_line_are_refused():
    with pytest.raises(ValueError, match="on one line"):
        from_corners([(0, 0), (1, 0), (2, 0), (3, 0)], (1, 1))


def gray(function, width, height):
    """A picture of a function of continuous coordinates, sampled at the pixels' centres."""
    x, y = np.meshgrid(np.arange(width) + 0.5, np.arange(height) + 0.5)
    return Image.fromarray(np.round(function(x, y)).astype(np.uint8))


def waves(x, y):
    return 128 + 60 * np.sin(x / 9) + 60 * np.cos(y / 7)


def test_the_view_straight_on_is_the_picture_itself():
    picture = gray(waves, 60, 40)
    assert (np.asarray(rectified(picture, np.eye(3), (60, 40))) == np.asarray(picture)).all()


def test_a_view_from_above_is_not_shifted_by_half_a_pixel():
    corners = [(60, 40), (340, 70), (310, 260), (80, 240)]
    matrix = from_corners(corners, (300, 200))

    def aslant(x, y):
        u, v = apply(matrix, np.stack([x.ravel(), y.ravel()], axis=1)).T
        return waves(u, v).reshape(x.shape)

    flat = np.asarray(rectified(gray(aslant, 400, 300), matrix, (300, 200)), float)
    off = (flat - np.asarray(gray(waves, 300, 200), float))[5:-5, 5:-5]
    # A shift by d adds d times the slope; least squares over the picture find d.
    x, y = np.meshgrid(np.arange(5, 295) + 0.5, np.arange(5, 195) + 0.5)
    for slope in (60 / 9 * np.cos(x / 9), -60 / 7 * np.sin(y / 7)):
        assert abs((off * slope).sum() / (slope ** 2).sum()) < 0.02
    assert np.abs(off).mean() < 1.0


def test_a_colour_picture_stays_one():
    picture = Image.new("RGB", (20, 10), (200, 100, 50))
    assert rectified(picture, np.eye(3), (20, 10)).getpixel((3, 4)) == (200, 100, 50)
