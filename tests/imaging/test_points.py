"""Points as typed: what is wrong with them is said in the user's words."""
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.imaging.points import checked, parsed_points, printed_points

tenths = st.integers(0, 200_000).map(lambda n: n / 10)


def test_points_are_typed_with_commas_and_spaces():
    assert parsed_points("12.5,40 80,41") == ((12.5, 40.0), (80.0, 41.0))
    assert parsed_points("  12.5 , 40\n80,41 ") == ((12.5, 40.0), (80.0, 41.0))
    assert parsed_points("") == ()


@given(st.lists(st.tuples(tenths, tenths), max_size=9).map(tuple))
def test_what_is_printed_reads_back(points):
    assert parsed_points(printed_points(points)) == points


def test_printing_keeps_one_decimal_and_no_more_than_is_needed():
    assert printed_points(((12.0, 0.26), (3.14, 4000.0))) == "12,0.3 3.1,4000"


@pytest.mark.parametrize("text", ["12.5", "1;2", "1,2,3", "nan,1", "1e3,2", "1,", "١,٢", "1,inf",
                                  "<b>,1"])
def test_a_word_that_is_no_point_is_named(text):
    with pytest.raises(ValueError, match="is no point. Write x and y in pixels"):
        parsed_points(text)


@pytest.mark.parametrize("shape, count, least", [
    ("point", 2, "one point"), ("line", 3, "two points"), ("path", 1, "at least two"),
    ("polygon", 2, "at least three"), ("box", 1, "two opposite corners")])
def test_a_shape_says_how_many_points_it_needs(shape, count, least):
    points = tuple((float(n), float(n * n)) for n in range(count))
    with pytest.raises(ValueError, match=rf"{least}.*; {count} given"):
        checked(shape, points)


@pytest.mark.parametrize("point, told", [
    ((4000.1, 5.0), r"Point 2 lies outside the picture, which is 4000 pixels wide: its x is 4000"),
    ((5.0, 3000.5), r"which is 3000 pixels high: its y is 3000\.5"),
    ((-0.5, 5.0), "its x is -0.5"), ((float("nan"), 5.0), "Point 2 has no x")])
def test_a_point_must_lie_in_the_picture(point, told):
    with pytest.raises(ValueError, match=told):
        checked("line", ((1.0, 1.0), point), 4000, 3000)


def test_the_outer_edge_belongs_to_the_picture():
    corners = ((0.0, 0.0), (4000.0, 3000.0))
    assert checked("box", corners, 4000, 3000) == corners


@pytest.mark.parametrize("shape, text, told", [
    ("line", "5,5 5,5", "Points 1 and 2"), ("path", "1,1 5,5 5,5 7,7", "Points 2 and 3"),
    ("polygon", "1,1 5,5 7,1 1,1", "Points 4 and 1"), ("box", "1,1 1,9", "differ in x and in y")])
def test_points_that_coincide_are_refused(shape, text, told):
    with pytest.raises(ValueError, match=told):
        checked(shape, parsed_points(text))


def test_an_unknown_shape_is_refused():
    with pytest.raises(ValueError, match="one of point, line, path, polygon, box"):
        checked("circle", ((1.0, 1.0),))
