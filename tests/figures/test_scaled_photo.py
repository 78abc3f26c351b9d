"""Photos at one scale: equal millimetres are equally long."""
import pytest

from teardowns.figures.scaled_photo import (
    ScaledPhoto,
    Window,
    ruler,
    ruler_length,
    scaled_photo,
    window_of,
)

from .drawing import parsed

WIDE = ScaledPhoto("/a/640/", "/a/2000/", "Board <A>", 80.0, 40.0)
HIGH = ScaledPhoto("/b/640/", "/b/640/", "Board B", 30.0, 60.0)


def test_the_window_holds_every_photo_whole():
    assert window_of([WIDE, HIGH]) == Window(80.0, 60.0)


def test_all_drawings_show_the_same_millimetres():
    window = window_of([WIDE, HIGH])
    boxes = {parsed(scaled_photo(one, window)).find("svg").get("viewBox") for one in (WIDE, HIGH)}
    assert boxes == {"0 0 80 60"}


def test_a_photo_stands_in_the_middle_in_its_own_size():
    image = parsed(scaled_photo(HIGH, Window(80.0, 60.0))).find(".//image")
    # (80 − 30) / 2 = 25 and (60 − 60) / 2 = 0
    assert [float(image.get(name)) for name in ("x", "y", "width", "height")] == [25, 0, 30, 60]


def test_what_it_shows_is_said_and_the_large_picture_kept_for_later():
    drawing = parsed(scaled_photo(WIDE, Window(80.0, 60.0)))
    assert drawing.find(".//title").text == "Board <A>"
    assert drawing.find(".//image").get("data-large") == "/a/2000/"


@pytest.mark.parametrize(("width", "length"), [
    (250, 100), (80, 20), (100, 50), (21, 10), (15, 5), (1, 1)])
def test_the_ruler_is_the_longest_round_length_that_fits_half(width, length):
    assert ruler_length(Window(width, 50.0)) == length


def test_the_ruler_is_as_wide_as_the_drawings():
    drawing = parsed(ruler(Window(80.0, 60.0))).find("svg")
    assert drawing.get("viewBox") == "0 0 80 8"
    assert drawing.find("path").get("d").startswith("M0 0V8M0 4H20")
