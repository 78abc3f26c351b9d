import pytest

from teardowns.drawing.solder_side import solder_sides

from .units import demo, document, drawn, labels

NUMBERS = ("01", "08", "09", "17", "24")


@pytest.mark.parametrize("number", NUMBERS)
def test_a_distance_measured_with_the_ruler_is_the_recorded_one(number):
    picture = drawn(number)["solder-side"]
    (a, b), (length,) = picture.scale.points, picture.scale.lengths
    values = {row["key"]: row["value"] for row in demo(number)["insulation"]}
    lines = [mark for mark in picture.marks if mark.shows.startswith("path/")]
    assert lines
    for mark in lines:
        (x0, y0), (x1, y1) = mark.points
        assert y0 == y1
        assert (x1 - x0) / (b[0] - a[0]) * length == pytest.approx(values[mark.shows[5:]])


def test_the_recorded_distance_lies_between_bare_mask_and_ends_at_copper():
    picture = drawn("24")["solder-side"]
    mark = next(m for m in picture.marks if m.shows == "path/board-clearance")
    (x0, y), (x1, _) = mark.points
    outside, inside = (picture.image.getpixel((round(x), round(y) + 6)) for x in (x0 - 12, x0 + 12))
    assert outside[0] > outside[2] + 40         # copper: more red than blue
    assert abs(inside[0] - inside[2]) < 30      # mask: greyish green
    assert x1 > x0


def test_flat_parts_are_marked_here_and_not_above():
    above, below = (drawn("09")[key] for key in ("component-side", "solder-side"))
    assert any("sense resistor" in label for label in labels(below, "component/"))
    assert not set(labels(above, "component/")) & set(labels(below, "component/"))


def test_what_was_not_measured_on_the_board_is_not_shown_here():
    shown = {mark.shows for mark in drawn("09")["solder-side"].marks}
    assert "path/case-wall" not in shown and "path/bobbin" not in shown
    assert "path/board-creepage" in shown and "path/transformer-clearance" in shown


def test_a_distance_that_was_looked_for_and_not_readable_has_no_line():
    unit = document(components=[{"key": "u", "role": "primary_controller", "designator": "U1"}],
                    insulation=[{"key": "p", "path": "creepage", "place": "board",
                                 "state": "not_readable"}])
    (picture,) = solder_sides(unit)
    assert not any(mark.shows.startswith("path/") for mark in picture.marks)


def test_a_unit_that_was_not_opened_has_no_solder_side():
    assert solder_sides(document()) == []
