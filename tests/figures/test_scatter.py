"""Two quantities of many units."""
import re

from teardowns.figures.axes import log_axis
from teardowns.figures.plane import Point
from teardowns.figures.scatter import Ink, Scatter, scatter

X, Y = log_axis([10, 100]), log_axis([1, 10])
POINTS = [Point(20, 2, "/units/1/", "One"), Point(50, 5, "/units/2/", "Two")]


def drawn(**more):
    return scatter(Scatter(X, Y, "Mass, g", "Power, W", **{"points": POINTS} | more))


def test_every_unit_has_its_point_and_its_link():
    found = drawn()
    assert found.count("<a ") == 2 and "/units/1/" in found and "/units/2/" in found


def test_nothing_is_drawn_of_a_band_that_there_is_not():
    assert "band" not in drawn()


def test_the_band_reaches_from_its_first_to_its_last_place_and_no_farther():
    found = drawn(band=[(20, 1, 2, 4), (50, 2, 5, 10)])
    way = re.search(r'class="band" d="M([^"]+)z"', found)[1]
    shares = [float(pair.split()[0]) for pair in way.split("L")]
    assert min(shares) == round(10 * X(20), 1) and max(shares) == round(10 * X(50), 1)


def test_the_line_of_equal_values_is_named_and_ends_with_the_shorter_scale():
    found = drawn(diagonal="capability = claim")
    line = re.search(r'class="equal" x1="([\d.]+)%"[^>]*x2="([\d.]+)%"', found)
    low, high = max(X.low, Y.low), min(X.high, Y.high)
    assert [float(end) for end in line.groups()] == [round(X(low), 2), round(X(high), 2)]
    assert ">capability = claim<" in found


def test_cells_are_inked_one_path_a_tint():
    found = drawn(ink=[Ink(0, [(0, 0), (1, 0)]), Ink(1, [(3, 3)])], grain=(4, 4))
    # the cell at the lower left: 250 wide, a quarter of 380 high, from the floor up
    assert found.count('class="ink') == 2
    assert 'class="ink0" d="M0.0 285.0h250.0v95.0H0.0zM250.0 285.0' in found


def test_this_unit_is_ringed_once_with_its_interval():
    assert 'class="this"' not in drawn()
    found = drawn(this=(20, 2), whisker=(1.5, 3))
    assert found.count('class="this"') == 1 and found.count('class="this-w"') == 1
    assert "this unit" in found
