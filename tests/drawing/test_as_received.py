import pytest

from teardowns.drawing.as_received import outsides

from .units import demo, document, drawn


@pytest.mark.parametrize("number", ["09", "12", "15", "23"])
def test_a_side_measured_with_the_ruler_has_its_recorded_length(number):
    picture = drawn(number)["outside"]
    (a, b), (length,) = picture.scale.points, picture.scale.lengths
    values = {row["key"]: row.get("value") for row in demo(number)["measurements"]}
    assert len(picture.marks) == 3
    for mark in picture.marks:
        (x0, y0), (x1, y1) = mark.points
        pixels = abs(x1 - x0) + abs(y1 - y0)            # dimension lines run along an axis
        assert pixels / (b[0] - a[0]) * length == pytest.approx(values[mark.shows[12:]])


def test_the_views_stay_clear_of_title_and_ruler():
    for number in ("01", "09", "12", "23"):
        ys = [y for mark in drawn(number)["outside"].marks for _, y in mark.points]
        assert min(ys) > 110 and max(ys) <= 960


def test_a_unit_whose_case_was_not_measured_has_no_drawing_of_its_outside():
    two = [{"key": side, "quantity": f"case_{side}", "value": 0.03} for side in ("height", "width")]
    assert outsides(document(measurements=two)) == []


def test_a_plug_of_unknown_kind_is_drawn_without_pins():
    rows = [{"key": side, "quantity": f"case_{side}", "value": 0.03}
            for side in ("height", "width", "depth")]
    (plain,) = outsides(document(measurements=rows))
    (pins,) = outsides(document(measurements=rows, unit={"title": "Test unit",
                                                         "plug": "europlug"}))
    assert plain.image.tobytes() != pins.image.tobytes()
