"""Marks over a picture: each shape where it was drawn, each label where it can be read."""
import re
from xml.etree import ElementTree

import pytest

from teardowns.figures.photo_marks import LONGEST, DrawnMark, marks_drawing, shortened

SVG = "{http://www.w3.org/2000/svg}"


def mark(shape, *points, label="C1", key="m1"):
    return DrawnMark(key, 3, shape, points, label)


def drawn(*marks, width=800, height=600):
    """The drawing as a tree, without its namespace."""
    root = ElementTree.fromstring(marks_drawing(marks, width, height))
    for element in root.iter():
        element.tag = element.tag.removeprefix(SVG)
    return root


def ways(tree):
    return {path.get("class"): path.get("d") for path in tree.iter("path")}


def test_it_is_drawn_in_the_pixels_of_the_picture_and_hidden_from_screen_readers():
    root = drawn(width=4000, height=3000)
    assert root.get("viewBox") == "0 0 4000 3000" and root.get("aria-hidden") == "true"
    assert not list(root)


@pytest.mark.parametrize("shape, points, way", [
    ("line", ((10.0, 20.0), (60.5, 20.0)), "M10 20L60.5 20"),
    ("path", ((1.0, 2.0), (3.0, 4.0), (5.0, 2.0)), "M1 2L3 4L5 2"),
    ("polygon", ((1.0, 2.0), (3.0, 4.0), (5.0, 2.0)), "M1 2L3 4L5 2Z"),
    ("box", ((10.0, 20.0), (110.0, 80.0)), "M10 20H110V80H10Z"),
    # The arm of a cross is an eightieth of the width: 800 / 80 = 10.
    ("point", ((100.0, 50.0),), "M90 50H110M100 40V60"),
])
def test_a_shape_goes_through_its_points(shape, points, way):
    assert ways(drawn(mark(shape, *points)))["line"] == way


@pytest.mark.parametrize("shape, points", [
    ("line", ((1.0, 2.0), (3.0, 4.0))), ("point", ((1.0, 2.0),)),
    ("box", ((1.0, 2.0), (3.0, 4.0)))])
def test_every_line_lies_on_a_halo_of_the_same_way(shape, points):
    tree = drawn(mark(shape, *points))
    assert [path.get("class") for path in tree.iter("path")] == ["halo", "line"]
    assert ways(tree)["halo"] == ways(tree)["line"]


def test_a_mark_carries_what_a_script_needs_to_draw_it_anew():
    (group,) = drawn(mark("line", (10.0, 20.0), (60.5, 20.04))).iter("g")
    carried = {name: group.get(f"data-{name}") for name in ("key", "version", "shape", "points")}
    assert carried == {"key": "m1", "version": "3", "shape": "line", "points": "10,20 60.5,20"}
    assert group.get("id") == "mark-m1"


def test_a_label_stands_at_the_highest_point():
    (text,) = drawn(mark("polygon", (30.0, 90.0), (50.0, 20.0), (70.0, 90.0))).iter("text")
    assert (text.get("x"), text.get("y"), text.text) == ("50", "20", "C1")


@pytest.mark.parametrize("x, anchor", [(10.0, "start"), (400.0, "start"), (790.0, "end")])
def test_a_label_grows_towards_the_middle_of_the_picture(x, anchor):
    (text,) = drawn(mark("point", (x, 50.0))).iter("text")
    assert text.get("text-anchor") == anchor


def test_no_mark_lies_on_the_label_of_another():
    tree = drawn(mark("point", (1.0, 2.0)), mark("box", (1.0, 2.0), (3.0, 4.0), key="m2"))
    assert [(part.tag, part.get("data-of")) for part in tree] == [
        ("g", None), ("g", None), ("text", "m1"), ("text", "m2")]


def test_a_mark_without_a_label_has_no_text():
    assert not list(drawn(mark("point", (1.0, 2.0), label="")).iter("text"))


def test_a_label_stays_text():
    label = '</g><a href="x">&'
    (text,) = drawn(mark("point", (1.0, 2.0), label=label)).iter("text")
    assert text.text == label.split()[0]


@pytest.mark.parametrize("label, shown", [
    ("C1", "C1"), ("x" * LONGEST, "x" * LONGEST), ("C12 bulk capacitor, glued", "C12"),
    ("x" * 40, "x" * LONGEST)])
def test_a_long_label_is_shown_by_its_first_word(label, shown):
    assert shortened(label) == shown


def test_a_long_label_of_blanks_alone_is_shown_as_nothing():
    assert shortened(" " * 40) == ""


def test_letters_are_as_large_as_the_picture_asks():
    # A fiftieth of the width.
    assert drawn(width=4000, height=3000).get("font-size") == "80"


def test_there_is_no_inline_style():
    assert not re.search(r"\bstyle=|\bon\w+=", marks_drawing([mark("point", (1.0, 2.0))], 8, 6))
