from itertools import pairwise

import pytest

from teardowns.drawing.board import board_of
from teardowns.drawing.component_side import component_sides, frame_of

from .units import demo, document, drawn, labels


def size_in_mm(picture, mark):
    (a, b), (length,) = picture.scale.points, picture.scale.lengths
    per_metre = (b[0] - a[0]) / length
    (left, top), (right, bottom) = mark.points
    return (right - left) / per_metre * 1e3, (bottom - top) / per_metre * 1e3


def test_a_part_measured_with_the_ruler_has_its_recorded_size():
    # Unit 13: output capacitors 10 mm in diameter.
    picture = drawn("13")["component-side"]
    cans = [mark for mark in picture.marks if mark.shows == "component/output-capacitor"]
    assert len(cans) == 2
    assert all(size_in_mm(picture, can) == pytest.approx((10.0, 10.0)) for can in cans)


def test_each_part_that_can_be_seen_from_above_is_marked_with_its_marking():
    found = labels(drawn("09")["component-side"], "component/")
    assert "T1 transformer PQ20/20" in " | ".join(found).replace("  ", " ")
    assert not any("sense resistor" in label for label in found)    # it sits below


def test_the_output_connectors_are_marked_as_ports():
    marks = [mark.shows for mark in drawn("12")["component-side"].marks]
    assert [m for m in marks if m.startswith("port/")] == ["port/c1", "port/c2", "port/a"]


def test_the_caption_says_what_is_made_up():
    assert "Positions are made up" in drawn("09")["component-side"].caption


def test_a_board_that_does_not_fit_its_case_flat_says_so():
    assert "Laid out flat" in drawn("01")["component-side"].caption


def test_the_board_lies_within_the_picture_from_both_sides():
    board = board_of(demo("12"))
    for flipped in (False, True):
        frame = frame_of(board, flipped)
        corners = [frame.at(x, y) for x in (0, board.length) for y in (0, board.width)]
        assert all(0 < x < 1600 and 100 < y < 800 for x, y in corners)


def test_from_the_solder_side_the_board_is_turned_over_its_long_axis():
    board = board_of(demo("12"))
    above, below = frame_of(board), frame_of(board, flipped=True)
    assert above.at(5, 0) == below.at(5, board.width)


def test_ruler_strokes_come_every_millimetre_of_the_board():
    picture = drawn("24")["component-side"]
    (x, y), (stop, _) = picture.scale.points
    row = [picture.image.getpixel((i, int(y) + 6))[0] < 130
           for i in range(int(x) - 3, int(stop) + 4)]
    strokes = sum(b and not a for a, b in pairwise(row))
    assert strokes == round(picture.scale.lengths[0] * 1e3) + 1


def test_nothing_recorded_on_a_board_gives_no_picture():
    assert component_sides(document()) == []
