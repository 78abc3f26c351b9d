"""What drawings of many units share."""
from teardowns.figures.axes import linear_axis, log_axis
from teardowns.figures.plane import (
    Point,
    field,
    level,
    linked_point,
    roomy,
    scale_below,
    scale_beside,
    this_unit,
    this_value,
)

AXIS = linear_axis(0, 100)


def test_a_point_leads_to_its_unit_and_is_no_stop_of_the_keyboard():
    drawn = linked_point(Point(1, 2, "/units/3/", "A <b> & C: 2 W"), 25.0, 40.0)
    assert 'href="/units/3/" tabindex="-1"' in drawn
    assert "<title>A &lt;b&gt; &amp; C: 2 W</title>" in drawn and 'cx="25.00%" cy="40.0"' in drawn


def test_what_was_estimated_is_an_open_point():
    point = Point(1, 2, "/units/3/", "A", is_open=True)
    assert 'class="pt-o"' in linked_point(point, 0, 0)


def test_a_value_stands_between_bottom_and_top():
    assert [level(AXIS, value, 20, 120) for value in (0, 50, 100)] == [120, 70, 20]


def test_names_stay_inside_of_the_drawing():
    assert 'text-anchor="end"' in this_unit(90, 10) and 'text-anchor="start"' in this_unit(10, 10)
    assert 'text-anchor="end"' in this_value(90, 0, 9)


def test_each_tick_has_a_line_and_its_number():
    axis = log_axis([5, 40])
    beside, below = scale_beside(axis, "Power, W", 20, 120), scale_below(axis, "Mass, g", 20, 120)
    assert beside.count("<line") == len(axis.ticks) == below.count("<line")
    assert ">20</text>" in beside and "Power, W" in beside and "Mass, g" in below


def test_numbers_that_would_touch_on_a_phone_are_thinned():
    ticks = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000]
    assert roomy(ticks[:5]) == ticks[:5]
    assert roomy(ticks) == ticks[::2]


def test_it_is_decoration_to_a_screen_reader_since_the_table_says_the_same():
    assert 'aria-hidden="true"' in field("", 10, "scatter") and "style=" not in field("", 1, "x")
