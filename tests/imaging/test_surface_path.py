"""What counts as creepage of a contour: too narrow is bridged, wide enough is followed."""
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.engine.requirements.surface_path import groove_creepage, v_groove_creepage
from teardowns.imaging.measuring import measure
from teardowns.imaging.scales import two_points
from teardowns.imaging.surface_path import bridged, counted_length

MM = 1e-3
tenths = st.integers(3, 40).map(lambda n: n / 10)


def grooves(*sizes, flat=2.0):
    """A surface seen from the side, air above: a flat, then each groove (width, depth) and a flat.

    Going to the right the air lies on the left. A negative depth is a rib.
    """
    points, x = [(0.0, 0.0)], 0.0
    for width, depth in sizes:
        x += flat
        points += [(x, 0.0), (x, depth), (x + width, depth), (x + width, 0.0)]
        x += width
    return np.array([*points, (x + flat, 0.0)]) * MM


def v_groove(width, depth):
    """Between two flats of 2 mm each."""
    return np.array([(0, 0), (2, 0), (2 + width / 2, depth), (2 + width, 0), (4 + width, 0)]) * MM


def counted(points, narrowest=1.0, air="left"):
    return counted_length(points, narrowest * MM, air) / MM


@pytest.mark.parametrize("width, expected", [(0.8, 4.8), (0.999, 4.999), (1.0, 9.0), (1.2, 9.2)])
def test_a_groove_counts_from_the_width_on(width, expected):
    # Two flats of 2 mm and the groove: its width where it is bridged, and twice 2 mm of depth.
    assert counted(grooves((width, 2.0))) == pytest.approx(expected, abs=1e-5)


@given(st.lists(st.tuples(tenths, tenths), min_size=1, max_size=6))
def test_each_of_several_grooves_is_judged_alone(sizes):
    flats = 2.0 * (len(sizes) + 1)
    expected = flats + sum(w + (2 * d if w >= 1.0 else 0.0) for w, d in sizes)
    assert counted(grooves(*sizes)) == pytest.approx(expected, abs=1e-4)


def test_a_rib_is_walked_over_however_thin():
    # 0.5 mm thick, 3 mm high: 2 + 3 + 0.5 + 3 + 2.
    rib = grooves((0.5, -3.0))
    assert counted(rib) == pytest.approx(10.5)
    assert counted(rib, air="right") == pytest.approx(4.5)       # the same line, seen as a groove
    assert counted(rib, air=None) == pytest.approx(4.5)          # nobody said: the least


def test_the_bottom_of_a_v_is_cut_short_by_a_link_of_x():
    # 2 mm wide, 3 mm deep, sides √10 = 3.1623: the link of 1 mm lies half way down and takes half
    # of both sides off: 4 + 3.1623 + 1 = 8.1623.
    assert counted(v_groove(2, 3)) == pytest.approx(8.1623, abs=1e-4)
    # 4 mm wide, 2 mm deep opens by 90°: 4 + 2 √8.
    assert counted(v_groove(4, 2)) == pytest.approx(4 + 2 * 8 ** 0.5)


def test_a_flat_notch_narrower_than_x_is_crossed_whatever_its_angle():
    assert counted(v_groove(0.8, 0.3)) == pytest.approx(4.8)


@given(tenths, tenths)
def test_single_grooves_count_as_the_engine_has_them(width, depth):
    flat = 4.0 + width
    v = 4.0 + 2 * np.hypot(width / 2, depth)
    assert counted(v_groove(width, depth)) == pytest.approx(
        float(v_groove_creepage(v, flat, width, depth, 1.0)), abs=1e-4)
    assert counted(grooves((width, depth))) == pytest.approx(
        float(groove_creepage(flat + 2 * depth, flat, width, 1.0)), abs=1e-4)


def undercut(mouth):
    """Walls that lean outwards by 1 mm over 2 mm of depth."""
    mouth_to_end = [(3 + mouth, 2), (2 + mouth, 0), (4 + mouth, 0)]
    return np.array([(0, 0), (2, 0), (1, 2), *mouth_to_end]) * MM


def test_a_groove_that_narrows_upwards_is_crossed_at_a_narrow_mouth():
    assert counted(undercut(0.8)) == pytest.approx(4.8)


def test_the_sharp_corners_of_a_groove_that_widens_downwards_are_cut_short():
    # Mouth 1.2 mm, floor 3.2, walls √5. Wall and floor meet at θ = atan 2 = 63.43°, under 80°: each
    # corner loses X / sin(θ/2) = 1.9021 of its sides for a link of 1.
    whole = 4 + 2 * 5 ** 0.5 + 3.2
    assert counted(undercut(1.2)) == pytest.approx(whole - 2 * 0.9021, abs=1e-3)


def test_a_corner_between_wall_and_floor_is_not_cut():
    # One step down by 0.3 mm: a link of 1 mm over the corner would save, 90° forbid it.
    step = np.array([(0, 0), (2, 0), (2, 0.3), (5, 0.3)]) * MM
    assert counted(step) == pytest.approx(5.3)


def test_a_narrow_groove_in_the_floor_of_a_wide_one_is_crossed():
    # 4 mm wide and 2 deep, in its floor 0.6 mm wide and 1.5 deep: 2 + 2 + 4 + 2 + 2.
    points = [(0, 0), (2, 0), (2, 2), (3.7, 2), (3.7, 3.5), (4.3, 3.5), (4.3, 2), (6, 2), (6, 0),
              (8, 0)]
    assert counted(np.array(points) * MM) == pytest.approx(12.0)


def test_a_way_back_counts_as_much_as_the_way_there():
    there = np.concatenate([grooves((0.8, 1.5), (1.6, 0.7)), v_groove(2, 3)[1:] + [8.4 * MM, 0]])
    assert counted(there[::-1], air="right") == pytest.approx(counted(there))


def test_the_path_that_counts_leaves_out_the_groove_that_is_crossed():
    contour = grooves((0.8, 2.0), (1.2, 1.0))
    path = bridged(contour, 1.0 * MM, "left")
    assert path[[0, -1]] == pytest.approx(contour[[0, -1]])
    assert path == pytest.approx(np.delete(contour, [2, 3], axis=0))
    assert bridged(contour, 0.0) == pytest.approx(contour)


def test_a_groove_of_about_x_has_a_large_uncertainty_for_it_may_or_may_not_count():
    # 0.01 mm a pixel; a click may be 2 px off, so that 0.99 mm may be 1.01 mm: twice 2 mm of depth.
    scale = two_points([(100, 100), (1100, 100)], 10 * MM, 0.0)
    counts = partial(counted_length, narrowest=1.0 * MM, air="left")
    near, far = (measure(scale, grooves((width, 2.0)) / (0.01 * MM) + 100, 2.0, size=(4000, 3000),
                         tilt_u=0.0, along=counts) for width in (0.99, 0.5))
    assert far.value == pytest.approx(4.5 * MM) and far.uncertainty < 0.05 * MM
    assert near.uncertainty > 1.0 * MM


@pytest.mark.parametrize("given, told", [
    ({"points": [(0, 0)]}, "at least two different points"),
    ({"points": [(0, 0), (0, 0)]}, "at least two different points"),
    ({"narrowest": -1.0}, "0 mm or more"), ({"narrowest": float("nan")}, "0 mm or more"),
    ({"air": "above"}, "left of the path"),
    ({"points": [(n, 0) for n in range(61)]}, "at most 60 points"),
])
def test_what_is_no_contour_is_said(given, told):
    with pytest.raises(ValueError, match=told):
        bridged(**{"points": [(0, 0), (1, 0)], "narrowest": 1.0} | given)
