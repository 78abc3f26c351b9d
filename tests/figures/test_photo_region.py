"""What is cut out around a mark."""
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.figures.photo_marks import DrawnMark
from teardowns.figures.photo_region import photo_region, region_around


def mark(*points, shape="line"):
    return DrawnMark("m", 1, shape, points, "C1")


def test_a_line_gets_room_on_each_side_of_it():
    # 400 long, 0.6 × 400 = 240 on each side: 880 wide, 880 · 3/4 = 660 high, about (1000, 500)
    found = region_around(mark((800, 500), (1200, 500)), 2000, 1500)
    assert (found.left, found.top, found.width, found.height) == (560, 170, 880, 660)


def test_a_point_gets_a_sixth_of_the_picture():
    found = region_around(mark((900, 600), shape="point"), 1800, 1200)
    assert found.width == pytest.approx(300) and found.left == pytest.approx(750)


def test_at_the_edge_it_stays_inside_the_picture():
    found = region_around(mark((1990, 1490), shape="point"), 2000, 1500)
    assert found.left + found.width == pytest.approx(2000)
    assert found.top + found.height == pytest.approx(1500)


@given(st.lists(st.tuples(st.floats(0, 2000), st.floats(0, 900)), min_size=2, max_size=5))
def test_it_holds_the_mark_and_lies_in_the_picture(points):
    found = region_around(mark(*points, shape="path"), 2000, 900)
    assert found.left >= 0 and found.top >= 0
    assert found.left + found.width <= 2000 + 1e-6 and found.top + found.height <= 900 + 1e-6
    for x, y in points:
        assert found.left - 1e-6 <= x <= found.left + found.width + 1e-6
        assert found.top - 1e-6 <= y <= found.top + found.height + 1e-6


def test_the_drawing_is_a_picture_with_words_and_no_style():
    drawn = photo_region(mark((10, 10), (90, 40)), "/p/1280.webp", 100, 50, "C1 <front>")
    tree = ElementTree.fromstring(drawn)
    assert tree.find("title").text == "C1 <front>" and tree.get("role") == "img"
    assert tree.find("image").get("href") == "/p/1280.webp" and "style" not in drawn


def test_without_a_mark_the_whole_picture_is_shown():
    tree = ElementTree.fromstring(photo_region(None, "/p/640.webp", 640, 480, "Plate"))
    assert tree.get("viewBox") == "0 0 640 480" and tree.find("path") is None
