import pytest

from teardowns.drawing.ports import port_faces

from .units import document, drawn

FIXED_5V_3A, FIXED_9V_3A = "0A01912C", "0002D12C"


def port(**more):
    return document(ports=[{"key": "p", "label": "P", "connector": "usb_c"} | more])


def test_each_connector_is_marked():
    assert [m.shows for m in drawn("11")["ports"].marks] == ["port/c1", "port/a1", "port/a2"]


@pytest.mark.parametrize(("connector", "wide", "high"), [
    ("usb_a", 12.5, 5.12), ("usb_c", 8.34, 2.56)])     # USB specifications, openings (from memory)
def test_an_opening_measured_with_the_ruler_has_its_standard_size(connector, wide, high):
    (picture,) = port_faces(port(connector=connector))
    (a, b), (length,) = picture.scale.points, picture.scale.lengths
    (left, top), (right, bottom) = picture.marks[0].points
    per_mm = (b[0] - a[0]) / length / 1e3
    assert (right - left - 20) / per_mm == pytest.approx(wide)      # a wall of 10 px all round
    assert (bottom - top - 20) / per_mm == pytest.approx(high)


@pytest.mark.parametrize(("wiring", "words"), [
    ("open", "lead nowhere"), ("shorted", "joined"), ("divider", "dividers"), ("chip", "chip"),
    ("", "not looked at")])
def test_the_words_say_where_the_data_lines_lead(wiring, words):
    (picture,) = port_faces(port(wiring=wiring))
    assert words in picture.alt


def test_the_picture_changes_with_what_the_port_offers():
    first, second = (port_faces(port(advertised=[word]))[0].image.tobytes()
                     for word in (FIXED_5V_3A, FIXED_9V_3A))
    assert first != second


def test_a_word_that_is_no_capability_is_shown_as_it_is():
    (picture,) = port_faces(port(advertised=["F0000000"]))
    assert picture.image.tobytes() != port_faces(port())[0].image.tobytes()


def test_ports_that_nobody_looked_at_have_no_picture():
    assert port_faces(port(state="not_looked")) == []
