"""The drawing of a list row."""
from teardowns.figures.strip import strip, strip_axis


def test_the_geometric_mean_of_the_ends_stands_in_the_middle():
    # the axis is logarithmic from 2 to 250 W: sqrt(2 · 250) = 22.3607 W is its middle
    assert 'cx="50.00%"' in strip(None, 20.0, 22.360679775, 25.0)


def test_the_claim_is_drawn_whether_or_not_a_capability_is_known():
    assert 'class="claim"' in strip(45.0, None, None, None)
    assert 'class="claim"' not in strip(None, 10.0, 12.0, 15.0)


def test_what_is_not_known_is_a_dotted_line_and_no_bar():
    unknown = strip(45.0, None, None, None)
    assert 'class="unm"' in unknown and 'class="cap"' not in unknown


def test_powers_beyond_the_axis_stand_at_its_ends():
    drawn = strip(1000.0, 0.1, 1.0, 2000.0)
    assert 'x1="0.00%" x2="100.00%"' in drawn and 'cx="0.00%"' in drawn


def test_it_is_decoration_to_a_screen_reader():
    assert strip(45.0, 10.0, 12.0, 15.0).startswith('<svg aria-hidden="true">')
    assert ">20</text>" in strip_axis()
